import { median, robustSpread } from '../signal/robust.ts';

/** What one instrument shows beyond the others at this moment. */
export interface Odd {
  readonly instrument: string;
  readonly offDeg: number;
}

const MOST_KEPT = 240;
const FEWEST_KEPT = 15;
const LEARN_EVERY = 10;
/** A sensor higher over the roll axis shows this much more of a swing than one low down, at most. */
const MORE_SWING = 0.5;
const SWING_BLOCKS = 10;
/** So many standard deviations off the usual difference is not rolling; and never less than this. */
const ODD_SPREADS = 8;
const LEAST_ODD_DEG = 0.01;

/**
 * Compares instruments that feel the same roll, block by block: what one shows and the others do
 * not is not the vessel. Differences are learned as median and robust spread, so that different
 * zeros, scales and heights over the roll axis are no difference.
 */
export class OddOneOut {
  private readonly kept = new Map<string, number[]>();
  private readonly usual = new Map<string, { middle: number; spread: number }>();
  private means: number[] = [];

  /** A new state: scales differ, so the differences do. */
  beginState(): void {
    this.kept.clear();
    this.usual.clear();
    this.means = [];
  }

  /**
   * One block of every such instrument, two at least. Returns the one farthest off its usual
   * difference, or null when none is off. Of two instruments both are equally far off: the caller
   * must tell which by their own past.
   */
  push(blocks: readonly { instrument: string; heelDeg: number }[]): Odd[] {
    const odd: Odd[] = [];
    const sum = blocks.reduce((total, block) => total + block.heelDeg, 0);
    const swingDeg = this.swing(sum / blocks.length);
    for (const { instrument, heelDeg } of blocks) {
      const difference = heelDeg - (sum - heelDeg) / (blocks.length - 1);
      const usual = this.usual.get(instrument);
      const limit =
        Math.max(ODD_SPREADS * (usual?.spread ?? 0), LEAST_ODD_DEG) + MORE_SWING * swingDeg;
      if (usual !== undefined && Math.abs(difference - usual.middle) > limit) {
        odd.push({ instrument, offDeg: difference - usual.middle });
      } else this.keep(instrument, difference);
    }
    return odd.sort((a, b) => Math.abs(b.offDeg) - Math.abs(a.offDeg));
  }

  /** Half the range of the common heel lately, beyond which a difference in swing cannot go. */
  private swing(meanDeg: number): number {
    this.means.push(meanDeg);
    if (this.means.length > SWING_BLOCKS) this.means.shift();
    return (Math.max(...this.means) - Math.min(...this.means)) / 2;
  }

  private keep(instrument: string, difference: number): void {
    let kept = this.kept.get(instrument);
    if (kept === undefined) {
      kept = [];
      this.kept.set(instrument, kept);
    }
    kept.push(difference);
    if (kept.length > MOST_KEPT) kept.splice(0, LEARN_EVERY);
    if (kept.length >= FEWEST_KEPT && kept.length % LEARN_EVERY === 0) {
      this.usual.set(instrument, { middle: median(kept), spread: robustSpread(kept) });
    }
  }
}
