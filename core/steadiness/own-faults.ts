import type { NotUsedStretches, OpenStretch } from './not-used.ts';
import { StuckValue } from './stuck-value.ts';
import type { Track } from './track.ts';
import { degreesInWords } from './what-is-seen.ts';

/** No value for so long is silence. */
const SILENT_AFTER_S = 1.5;
/** Beyond this an inclinometer of +-0.5 g is at its end (asin 0.5 is 30 degrees). */
const MOST_HEEL_DEG = 29.5;
/** A disturbance's word stays this long, so that it can be read. */
export const WORD_STAYS_S = 3;
/** Shaking has gone on for about so long when it is noticed. */
const BACK_S = 2.4;

/** What is wrong with one instrument by its own samples alone: silent, stuck, at its end, shaking. */
export class OwnFaults {
  private readonly stuck = new Map<string, StuckValue>();
  /** How far the others were when an instrument was last heard: behind them is not silent. */
  private readonly heardAtS = new Map<Track, number>();

  constructor(
    private readonly stretches: NotUsedStretches,
    private readonly begin: (
      track: Track,
      stretch: Pick<OpenStretch, 'kind' | 'fromS' | 'noticedS' | 'evidence'>,
    ) => OpenStretch,
    private readonly end: (track: Track, stretch: OpenStretch, atS: number) => void,
  ) {}

  /**
   * Before the sample goes to its track: silence, repetition and range.
   * @param newestS newest time of any instrument, this sample's included
   */
  inspect(track: Track, atS: number, heelDeg: number | null, newestS: number): void {
    if (heelDeg !== null) {
      this.heardAtS.set(track, newestS);
      this.breakSilence(track, atS);
    }
    const stuckSinceS = this.stuckOf(track).push(atS, heelDeg);
    const atEnd = heelDeg !== null && Math.abs(heelDeg) > MOST_HEEL_DEG;
    const now = this.stretches.of(track.watched.instrument);
    const { label } = track.watched;
    if (now === undefined) {
      if (stuckSinceS !== null) {
        const evidence = `${label} repeats ${degreesInWords(heelDeg!)} without change`;
        this.begin(track, { kind: 'stuck', fromS: stuckSinceS, noticedS: atS, evidence });
      } else if (atEnd) {
        const evidence = `${label} shows ${degreesInWords(heelDeg)}, the end of its range`;
        this.begin(track, { kind: 'saturated', fromS: atS, noticedS: atS, evidence });
      }
      return;
    }
    if (['knock', 'drift', 'vibration'].includes(now.kind)) {
      // What looked like a jump against the others was the beginning of this.
      if (stuckSinceS !== null) {
        now.kind = 'stuck';
        now.evidence = `${label} repeats ${degreesInWords(heelDeg!)} without change`;
      } else if (atEnd) {
        now.kind = 'saturated';
        now.evidence = `${label} shows ${degreesInWords(heelDeg)}, the end of its range`;
      }
      return;
    }
    if (heelDeg === null || atS - now.noticedS < WORD_STAYS_S) return;
    const isOver =
      (now.kind === 'stuck' && stuckSinceS === null) || (now.kind === 'saturated' && !atEnd);
    if (isOver) this.end(track, now, atS);
  }

  /** Neither heard by its own time nor, while the others went on, by theirs. */
  isSilent(track: Track, nowS: number, silentAfterS: number): boolean {
    const { lastS } = track;
    if (lastS === null || this.stretches.of(track.watched.instrument) !== undefined) return false;
    return nowS - Math.max(lastS, this.heardAtS.get(track) ?? lastS) > silentAfterS;
  }

  private breakSilence(track: Track, atS: number): void {
    const open = this.stretches.of(track.watched.instrument);
    const isGap = track.lastS !== null && atS - track.lastS > SILENT_AFTER_S;
    if (open?.kind === 'silent' && isGap) this.end(track, open, atS);
    else if (open?.kind === 'silent') {
      // After a cut one stream comes whole before the next: what was late only was no silence.
      this.stretches.drop(open);
      track.unbar();
    } else if (open === undefined && isGap) {
      this.end(track, this.beginSilence(track, track.lastS!, atS), atS);
    }
  }

  beginSilence(track: Track, lastS: number, nowS: number): OpenStretch {
    const evidence = silenceEvidence(track);
    return this.begin(track, { kind: 'silent', fromS: lastS, noticedS: nowS, evidence });
  }

  /** Once a block: does it shake, it alone? */
  review(track: Track, atS: number, isAlone: boolean): void {
    const now = this.stretches.of(track.watched.instrument);
    if (now?.kind === 'vibration') {
      const goesOn = track.isShaking || track.rawShaking.spoils() !== null;
      if (!goesOn && atS - now.noticedS >= WORD_STAYS_S) this.end(track, now, atS);
      return;
    }
    const spoils = track.rawShaking.spoils();
    if (spoils !== null && (now === undefined || now.kind === 'knock')) {
      this.shakes(track, now, track.rawShaking.sinceS, atS, `${track.watched.label} ${spoils}`);
      return;
    }
    if (!track.isShaking || !isAlone || (now !== undefined && now.kind !== 'knock')) return;
    const times = track.roughness.times.toFixed(0);
    const evidence = `${track.watched.label} shakes ${times} times as much from sample to sample as it usually does`;
    this.shakes(track, now, atS - BACK_S, atS, evidence);
  }

  private shakes(
    track: Track,
    now: OpenStretch | undefined,
    fromS: number,
    noticedS: number,
    evidence: string,
  ): void {
    if (now === undefined) this.begin(track, { kind: 'vibration', fromS, noticedS, evidence });
    else Object.assign(now, { kind: 'vibration', evidence });
  }

  private stuckOf(track: Track): StuckValue {
    const { instrument } = track.watched;
    let stuck = this.stuck.get(instrument);
    if (stuck === undefined) {
      stuck = new StuckValue();
      this.stuck.set(instrument, stuck);
    }
    return stuck;
  }
}

export const silenceEvidence = (track: Track) => `no value from ${track.watched.label}`;
