import type { NotUsed } from './watch-types.ts';

/** A stretch that goes on. */
export interface OpenStretch {
  kind: string;
  readonly fromS: number;
  /** When it was noticed: its word stays for a while from here. */
  readonly noticedS: number;
  /** Null: the vessel. */
  readonly instrument: string | null;
  evidence: string;
}

/** How long ended stretches are kept for drawing. */
const SHOWN_S = 120;
const MOST_KEPT = 200;

/** The stretches of time that are not used: those that go on and those that have ended. */
export class NotUsedStretches {
  open: OpenStretch[] = [];
  private ended: NotUsed[] = [];
  private unreported: NotUsed[] = [];

  begin(stretch: OpenStretch): OpenStretch {
    this.open.push(stretch);
    return stretch;
  }

  /** `report`: false for what is no disturbance (a weight carried). */
  end(stretch: OpenStretch, toS: number, report = true): void {
    this.drop(stretch);
    const ended = closed(stretch, Math.max(toS, stretch.fromS));
    this.ended.push(ended);
    if (this.ended.length > MOST_KEPT) this.ended.shift();
    if (report) this.unreported.push(ended);
  }

  /** What was taken for a stretch of its own turned out to be part of another. */
  drop(stretch: OpenStretch): void {
    this.open = this.open.filter((other) => other !== stretch);
  }

  of(instrument: string | null): OpenStretch | undefined {
    return this.open.find((stretch) => stretch.instrument === instrument);
  }

  shown(nowS: number): NotUsed[] {
    return [
      ...this.ended.filter((stretch) => stretch.toS >= nowS - SHOWN_S),
      ...this.open.map((stretch) => closed(stretch, Math.max(nowS, stretch.fromS))),
    ].sort((a, b) => a.fromS - b.fromS);
  }

  report(): NotUsed[] {
    const report = this.unreported;
    this.unreported = [];
    return report;
  }
}

function closed(stretch: OpenStretch, toS: number): NotUsed {
  return {
    fromS: stretch.fromS,
    toS,
    kind: stretch.kind,
    instruments: stretch.instrument === null ? null : [stretch.instrument],
    evidence: stretch.evidence,
  };
}
