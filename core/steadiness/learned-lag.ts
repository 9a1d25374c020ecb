import { BLOCK_S } from './roll-model.ts';

/** Time constants until a lagging instrument shows the vessel: a thousandth of a step is left. */
const SETTLED_CONSTANTS = 7;
const FEWEST_BLOCKS = 25;
/** The two must have differed by more than their noise, or nothing is learned of a lag. Degrees. */
const LEAST_SPREAD_DEG = 0.1;
/** A constant known worse than this is not gone by. */
const MOST_RELATIVE_ERROR = 0.2;
/** Beyond this many times what its mounting says, something else than its lag is the matter. */
const MOST_TIMES = 3;

/**
 * How slowly an instrument follows a prompt one, learned block by block over the whole day: what
 * it gains from one block to the next against how far it was behind in between, by least squares
 * with a constant for their different zeros. Both sides use the mean of the two blocks, so that
 * white noise does not pass for a lag. Memory is a few sums.
 */
export class LearnedLag {
  private before: { block: number; behindDeg: number; slowDeg: number } | null = null;
  private count = 0;
  private meanBehind = 0;
  private meanGain = 0;
  private behindSquares = 0;
  private gainSquares = 0;
  private products = 0;

  /** Mean heel of the prompt and of the slow instrument in one block; NaN: missing. */
  push(block: number, promptDeg: number, slowDeg: number): void {
    const { before } = this;
    const behindDeg = promptDeg - slowDeg;
    this.before = Number.isNaN(behindDeg) ? null : { block, behindDeg, slowDeg };
    if (before === null || this.before === null || before.block !== block - 1) return;
    const behind = (before.behindDeg + behindDeg) / 2;
    const gain = slowDeg - before.slowDeg;
    this.count += 1;
    const fromMean = behind - this.meanBehind;
    const gainFromMean = gain - this.meanGain;
    this.meanBehind += fromMean / this.count;
    this.meanGain += gainFromMean / this.count;
    this.behindSquares += fromMean * (behind - this.meanBehind);
    this.gainSquares += gainFromMean * (gain - this.meanGain);
    this.products += fromMean * (gain - this.meanGain);
  }

  /** Seconds of its exponential approach; null while the day has not told it. */
  get timeConstantS(): number | null {
    const { count, behindSquares, products, gainSquares } = this;
    if (count < FEWEST_BLOCKS || behindSquares < count * LEAST_SPREAD_DEG ** 2) return null;
    const share = products / behindSquares;
    if (!(share > 0)) return null;
    const rest = Math.max(0, gainSquares - share * products);
    const error = Math.sqrt(rest / (count - 2) / behindSquares);
    return error > MOST_RELATIVE_ERROR * share ? null : BLOCK_S / share;
  }

  /** Seconds until it has settled: as its mounting says, or longer where the day shows so. */
  settlingS(mountedS: number): number {
    const constantS = this.timeConstantS;
    if (constantS === null) return mountedS;
    return Math.min(MOST_TIMES * mountedS, Math.max(mountedS, SETTLED_CONSTANTS * constantS));
  }
}
