import {
  BLOCK_S,
  type RollBlockStep,
  type RollModel,
  rollBlockStep,
  WIND_TIMES_S,
} from './roll-model.ts';

/** What is held possible of heel and of ringing before the first block, degrees: anything. */
const WIDE_DEG = 10;

/** The state: roll and its rate, three paces of wind, the mean heel. */
const ROLL = 0;
const WIND = 2;
const MEAN = 5;
const SIZE = 6;

/**
 * The heel and its standard error from block means as they come, the model being given: a Kalman
 * filter whose mean heel starts from a prior so wide that the result is generalised least squares
 * on everything fed. Constant memory, a tenth of a microsecond a block. Also gives what the
 * likelihood of the model needs, and each block's deviation from its prediction.
 *
 * A block mean belongs to the time between two states, so the chance that moves the state is in
 * the mean too: prediction and correction are one step with correlated noises (standard text on
 * linear filtering, from memory).
 */
export class HeelFilter {
  /** Minus the logarithm of the likelihood of all blocks so far, but for a constant. */
  minusLogLikelihood = 0;
  /** Of the last block: what it was off its prediction, and the variance expected of that. */
  deviationDeg = 0;
  deviationVariance = 1;
  private readonly rollDeg: number;
  private readonly step: RollBlockStep;
  /** What a block leaves of each wind, and of the mean heel all. */
  private readonly kept = new Float64Array(SIZE);
  /** Of each wind: the variance a block adds. */
  private readonly added = new Float64Array(SIZE);
  /** What a block mean takes of the state before it. */
  private readonly seen = new Float64Array(SIZE);
  /** Variance of a block mean that the state before it does not explain. */
  private readonly unseen: number;
  private readonly state = new Float64Array(SIZE);
  /** Covariance of the state, row by row; only what lies on and above the diagonal. */
  private readonly spread = new Float64Array(SIZE * SIZE);
  /** Of the last block, the covariance of its deviation with each state after it. */
  readonly gain = new Float64Array(SIZE);

  /** `nearDeg`: some heel seen, so that numbers stay small; the result does not depend on it. */
  constructor(model: RollModel, nearDeg: number) {
    this.rollDeg = model.rollDeg;
    this.step = rollBlockStep(model);
    this.seen[ROLL] = this.step.m1;
    this.seen[ROLL + 1] = this.step.m2;
    this.seen[MEAN] = 1;
    this.kept[MEAN] = 1;
    let unseen = this.step.qm + model.noiseDeg ** 2;
    for (let k = 0; k < WIND_TIMES_S.length; k++) {
      const variance = model.windDeg[k]! ** 2;
      const kept = Math.exp(-BLOCK_S / WIND_TIMES_S[k]!);
      this.kept[WIND + k] = kept;
      this.seen[WIND + k] = kept;
      this.added[WIND + k] = variance * (1 - kept * kept);
      this.spread[(WIND + k) * (SIZE + 1)] = variance;
      unseen += variance * (1 - kept * kept);
    }
    this.unseen = unseen;
    this.state[MEAN] = nearDeg;
    this.spread[MEAN * (SIZE + 1)] = WIDE_DEG ** 2;
    this.letRing(0);
  }

  get heelDeg(): number {
    return this.state[MEAN]!;
  }

  /** Squared standard error of the mean heel, the model taken as true. */
  get variance(): number {
    return this.spread[MEAN * (SIZE + 1)]!;
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
    const variance = this.rollDeg ** 2 + Math.min(ringingDeg, WIDE_DEG) ** 2;
    for (let i = ROLL; i < ROLL + 2; i++) {
      this.state[i] = 0;
      for (let j = i; j < SIZE; j++) this.spread[i * SIZE + j] = 0;
      this.spread[i * (SIZE + 1)] = variance;
    }
  }

  /** Time goes on by one block without a value that may be used. */
  skip(): void {
    const { state, spread, kept, added } = this;
    const { a11, a12, a21, a22, q11, q12, q22 } = this.step;
    const roll = state[ROLL]!;
    const rate = state[ROLL + 1]!;
    state[ROLL] = a11 * roll + a12 * rate;
    state[ROLL + 1] = a21 * roll + a22 * rate;
    const upper = spread[0]!;
    const cross = spread[1]!;
    const lower = spread[SIZE + 1]!;
    spread[0] = a11 * a11 * upper + 2 * a11 * a12 * cross + a12 * a12 * lower + q11;
    spread[1] = a11 * a21 * upper + (a11 * a22 + a12 * a21) * cross + a12 * a22 * lower + q12;
    spread[SIZE + 1] = a21 * a21 * upper + 2 * a21 * a22 * cross + a22 * a22 * lower + q22;
    for (let j = WIND; j < SIZE; j++) {
      const part = kept[j]!;
      const ofRoll = spread[j]!;
      const ofRate = spread[SIZE + j]!;
      spread[j] = part * (a11 * ofRoll + a12 * ofRate);
      spread[SIZE + j] = part * (a21 * ofRoll + a22 * ofRate);
    }
    for (let i = WIND; i < MEAN; i++) {
      const part = kept[i]!;
      const row = i * SIZE;
      state[i] = part * state[i]!;
      for (let j = i; j < SIZE; j++) spread[row + j] = part * kept[j]! * spread[row + j]!;
      spread[row + i] = spread[row + i]! + added[i]!;
    }
  }

  /** One block mean. */
  push(heelDeg: number): void {
    const { state, spread, gain, seen, kept, added } = this;
    const { a11, a12, a21, a22, q1m, q2m } = this.step;
    let deviation = heelDeg;
    for (let i = 0; i < SIZE; i++) {
      gain[i] = 0;
      deviation -= seen[i]! * state[i]!;
    }
    for (let i = 0, row = 0; i < SIZE; i++, row += SIZE) {
      const own = seen[i]!;
      let sum = gain[i]! + spread[row + i]! * own;
      for (let j = i + 1; j < SIZE; j++) {
        const shared = spread[row + j]!;
        sum += shared * seen[j]!;
        gain[j] = gain[j]! + shared * own;
      }
      gain[i] = sum;
    }
    let variance = this.unseen;
    for (let i = 0; i < SIZE; i++) variance += seen[i]! * gain[i]!;
    const upper = gain[ROLL]!;
    const lower = gain[ROLL + 1]!;
    gain[ROLL] = a11 * upper + a12 * lower + q1m;
    gain[ROLL + 1] = a21 * upper + a22 * lower + q2m;
    for (let i = WIND; i < MEAN; i++) gain[i] = kept[i]! * gain[i]! + added[i]!;
    this.skip();
    const share = deviation / variance;
    for (let i = 0, row = 0; i < SIZE; i++, row += SIZE) {
      const own = gain[i]!;
      const part = own / variance;
      state[i] = state[i]! + own * share;
      for (let j = i; j < SIZE; j++) spread[row + j] = spread[row + j]! - part * gain[j]!;
    }
    this.minusLogLikelihood += 0.5 * (Math.log(variance) + deviation * share);
    this.deviationDeg = deviation;
    this.deviationVariance = variance;
  }
}
