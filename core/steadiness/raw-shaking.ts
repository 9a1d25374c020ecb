import type { ShakingMark } from '../sample/shaking.ts';
import { median } from '../signal/robust.ts';

/** Seconds by which the usual is judged: the most kept, the fewest, and learned anew each so many. */
const MOST_KEPT = 120;
const FEWEST_KEPT = 20;
/** So many times the usual is an engine, and worth telling. */
const TOLD_TIMES = 5;
/** Of so many seconds lately, so many must be bad; as many good ones end it. */
const OF_LAST = 3;
const BAD_OF_LAST = 2;
/** Beyond this an inclinometer of +-0.5 g is at its end (asin 0.5 is 30 degrees). */
const MOST_HEEL_DEG = 29.5;
/**
 * The smoothed course has ten values a second: what swings within so many hertz of a whole multiple
 * of that folds among her rolling, with the share that the smoothing leaves of it at most
 * (`core/sample/smoothing.ts`: from 7 Hz on). So much of it may; under the default target of a
 * reading. Our settings.
 */
const GRID_HZ = 10;
const FOLDS_WITHIN_HZ = 1.5;
const LEFT_SHARE = 0.002;
const MOST_FOLDED_DEG = 0.004;

const bothDigits = (deg: number) => deg.toFixed(deg < 0.1 ? 3 : deg < 10 ? 2 : 0);

/**
 * What one instrument's samples at board rate say that their smoothed course hides. An engine that
 * runs steadily is only told; shaking that reaches the end of the range, or that folds among her
 * rolling by more than a reading can bear, spoils the heel.
 */
export class RawShaking {
  private readonly kept: number[] = [];
  private readonly last: { readonly mark: ShakingMark; readonly why: string | null }[] = [];
  private spoiling = false;

  push(mark: ShakingMark): void {
    this.last.push({ mark, why: whyBad(mark) });
    if (this.last.length > OF_LAST) this.last.shift();
    const bad = this.last.filter(({ why }) => why !== null).length;
    if (bad >= BAD_OF_LAST) this.spoiling = true;
    if (bad === 0 && this.last.length === OF_LAST) this.spoiling = false;
    // What is told must not become the usual while it goes on.
    if (this.told() === null && !this.spoiling) this.kept.push(mark.rmsDeg);
    if (this.kept.length > MOST_KEPT) this.kept.shift();
  }

  /** Why the heel cannot be used now, in words; null: it can. */
  spoils(): string | null {
    if (!this.spoiling) return null;
    return this.last.findLast(({ why }) => why !== null)?.why ?? 'shaking that has just died down';
  }

  /** Since when, receiver seconds, as far as the last seconds tell. */
  get sinceS(): number {
    const first = this.last.find(({ why }) => why !== null) ?? this.last[0];
    return (first?.mark.toS ?? 0) - 1;
  }

  /** Shaking far over the usual that the smoothing takes out, in words; null: none. */
  told(): string | null {
    const newest = this.last.at(-1)?.mark;
    if (newest === undefined || this.kept.length < FEWEST_KEPT) return null;
    if (newest.rmsDeg <= TOLD_TIMES * median(this.kept)) return null;
    return `shakes ${bothDigits(newest.rmsDeg)}° from sample to sample, smoothed away: an engine?`;
  }
}

function whyBad({ rmsDeg, frequencyHz, mostDeg }: ShakingMark): string | null {
  if (mostDeg > MOST_HEEL_DEG)
    return `shakes to ${bothDigits(mostDeg)}°, the end of its range: its mean cannot be trusted`;
  const multiple = Math.round(frequencyHz / GRID_HZ) * GRID_HZ;
  const folds = multiple > 0 && Math.abs(frequencyHz - multiple) <= FOLDS_WITHIN_HZ;
  if (folds && LEFT_SHARE * rmsDeg > MOST_FOLDED_DEG)
    return `shakes ${bothDigits(rmsDeg)}° some ${frequencyHz.toFixed(0)} times a second: of that too much looks like rolling`;
  return null;
}
