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
/** An overruled stretch found once more may begin and end a little otherwise. */
const MOSTLY = 0.5;

/** Rejected time that a person answers for. */
export type Overruled = Pick<NotUsed, 'fromS' | 'toS' | 'instruments'>;

/** The stretches of time that are not used: those that go on and those that have ended. */
export class NotUsedStretches {
  open: OpenStretch[] = [];
  private ended: NotUsed[] = [];
  private unreported: NotUsed[] = [];
  private overruled: Overruled[] = [];

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

  /** What is found in most of this time is set aside, now and when it is found once more. */
  overrule(stretch: Overruled): void {
    this.overruled = [...this.overruled.slice(-(MOST_KEPT - 1)), stretch];
  }

  /** Stretches not overruled that bar this instrument. */
  standing(instrument: string): { readonly fromS: number; readonly toS: number }[] {
    const open = this.open.map((one) => closed(one, Number.POSITIVE_INFINITY));
    return [...this.ended, ...open].filter(
      (one) => isOf(one.instruments, instrument) && !this.isOverruled(one),
    );
  }

  private isOverruled(one: NotUsed): boolean {
    return this.overruled.some((other) => {
      const sameOnes = JSON.stringify(other.instruments) === JSON.stringify(one.instruments);
      const commonS = Math.min(one.toS, other.toS) - Math.max(one.fromS, other.fromS);
      return sameOnes && commonS >= MOSTLY * (one.toS - one.fromS);
    });
  }

  shown(nowS: number): NotUsed[] {
    return [
      ...this.ended.filter(
        (stretch) => stretch.toS >= nowS - SHOWN_S && !this.isOverruled(stretch),
      ),
      ...this.open.map((stretch) => closed(stretch, Math.max(nowS, stretch.fromS))),
    ].sort((a, b) => a.fromS - b.fromS);
  }

  /** As they are, with some more that go on. */
  withOpen(more: readonly OpenStretch[]): NotUsedStretches {
    const view = new NotUsedStretches();
    view.open = [...this.open, ...more];
    view.ended = this.ended;
    view.overruled = this.overruled;
    return view;
  }

  report(): NotUsed[] {
    const report = this.unreported;
    this.unreported = [];
    return report;
  }
}

/** Does a stretch of these instruments (null: the vessel) bar this one? */
export function isOf(instruments: readonly string[] | null, instrument: string): boolean {
  return instruments === null || instruments.includes(instrument);
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
