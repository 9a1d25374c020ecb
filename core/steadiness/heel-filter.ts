import {
  BLOCK_S,
  type PairStep,
  QUICK_TIME_S,
  type RollModel,
  rollStep,
  SLOW_TIME_S,
  smoothStep,
} from './roll-model.ts';

/** What is held possible of heel and of ringing before the first block, degrees: anything. */
const WIDE_DEG = 10;

/** The state: roll, slow heel and quick heel, each a pair with its rate, and the mean heel. */
const SIZE = 7;
const ROLL = 0;
const SLOW = 2;
const QUICK = 4;
const MEAN = 6;

/**
 * The heel and its standard error from block means as they come, the model being given: a Kalman
 * filter whose mean heel starts from a prior so wide that the result is generalised least squares
 * on everything fed. Constant memory, a quarter of a microsecond a block. Also gives what the
 * likelihood of the model needs, and each block's deviation from its prediction.
 */
export class HeelFilter {
  /** Minus the logarithm of the likelihood of all blocks so far, but for a constant. */
  minusLogLikelihood = 0;
  /** Of the last block: what it was off its prediction, and the variance expected of that. */
  deviationDeg = 0;
  deviationVariance = 1;
  private readonly rollDeg: number;
  private readonly noiseVariance: number;
  private readonly steps: readonly PairStep[];
  private readonly state = new Float64Array(SIZE);
  /** Covariance of the state, row by row. */
  private readonly spread = new Float64Array(SIZE * SIZE);
  private readonly gain = new Float64Array(SIZE);

  /** `nearDeg`: some heel seen, so that numbers stay small; the result does not depend on it. */
  constructor(model: RollModel, nearDeg: number) {
    this.rollDeg = model.rollDeg;
    this.noiseVariance = model.noiseDeg ** 2;
    this.steps = [
      rollStep(model, BLOCK_S),
      smoothStep(model.slowDeg, SLOW_TIME_S, BLOCK_S),
      smoothStep(model.quickDeg, QUICK_TIME_S, BLOCK_S),
    ];
    this.state[MEAN] = nearDeg;
    this.spread[MEAN * SIZE + MEAN] = WIDE_DEG ** 2;
    this.loosen(SLOW, model.slowDeg ** 2);
    this.loosen(QUICK, model.quickDeg ** 2);
    this.letRing(0);
  }

  get heelDeg(): number {
    return this.state[MEAN]!;
  }

  /** Squared standard error of the mean heel, the model taken as true. */
  get variance(): number {
    return this.spread[MEAN * SIZE + MEAN]!;
  }

  /** Amplitude of the roll as it is now. */
  get amplitudeDeg(): number {
    return Math.hypot(this.state[ROLL]!, this.state[ROLL + 1]!);
  }

  /**
   * Forgets the roll and lets it begin anew with a ringing of about `ringingDeg` on top of what
   * the model drives: at the start, and after a stretch that was not used.
   */
  letRing(ringingDeg: number): void {
    this.loosen(ROLL, this.rollDeg ** 2 + Math.min(ringingDeg, WIDE_DEG) ** 2);
  }

  /** Nothing is known of this pair but its variance. */
  private loosen(pair: number, variance: number): void {
    for (let i = pair; i < pair + 2; i++) {
      this.state[i] = 0;
      for (let j = 0; j < SIZE; j++) {
        this.spread[i * SIZE + j] = 0;
        this.spread[j * SIZE + i] = 0;
      }
      this.spread[i * SIZE + i] = variance;
    }
  }

  /** Time goes on by one block without a value that may be used. */
  skip(): void {
    const { state, spread } = this;
    for (let n = 0; n < 3; n++) {
      const { a11, a12, a21, a22, q11, q12, q22 } = this.steps[n]!;
      const first = 2 * n;
      const value = state[first]!;
      const rate = state[first + 1]!;
      state[first] = a11 * value + a12 * rate;
      state[first + 1] = a21 * value + a22 * rate;
      const row = first * SIZE;
      for (let j = 0; j < SIZE; j++) {
        const upper = spread[row + j]!;
        const lower = spread[row + SIZE + j]!;
        spread[row + j] = a11 * upper + a12 * lower;
        spread[row + SIZE + j] = a21 * upper + a22 * lower;
      }
      for (let at = first; at < SIZE * SIZE; at += SIZE) {
        const left = spread[at]!;
        const right = spread[at + 1]!;
        spread[at] = a11 * left + a12 * right;
        spread[at + 1] = a21 * left + a22 * right;
      }
      const corner = row + first;
      spread[corner] = spread[corner]! + q11;
      spread[corner + 1] = spread[corner + 1]! + q12;
      spread[corner + SIZE] = spread[corner + SIZE]! + q12;
      spread[corner + SIZE + 1] = spread[corner + SIZE + 1]! + q22;
    }
  }

  /** One block mean. */
  push(heelDeg: number): void {
    this.skip();
    const { state, spread, gain } = this;
    for (let i = 0, row = 0; i < SIZE; i++, row += SIZE) {
      gain[i] = spread[row]! + spread[row + SLOW]! + spread[row + QUICK]! + spread[row + MEAN]!;
    }
    const variance = gain[ROLL]! + gain[SLOW]! + gain[QUICK]! + gain[MEAN]! + this.noiseVariance;
    const deviation = heelDeg - (state[ROLL]! + state[SLOW]! + state[QUICK]! + state[MEAN]!);
    const share = deviation / variance;
    for (let i = 0, row = 0; i < SIZE; i++, row += SIZE) {
      const part = gain[i]! / variance;
      state[i] = state[i]! + gain[i]! * share;
      for (let j = 0; j < SIZE; j++) spread[row + j] = spread[row + j]! - part * gain[j]!;
    }
    this.minusLogLikelihood += 0.5 * (Math.log(variance) + deviation * share);
    this.deviationDeg = deviation;
    this.deviationVariance = variance;
  }
}
