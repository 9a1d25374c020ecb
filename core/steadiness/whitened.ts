import { RESTART_AFTER_BLOCKS } from './heel-blocks.ts';
import { HeelFilter } from './heel-filter.ts';
import {
  BLOCK_S,
  type RollBlockStep,
  type RollModel,
  rollBlockStep,
  WIND_TIMES_S,
} from './roll-model.ts';

/** How well a shape explains what the model does not. */
export interface Explained {
  /** Squared standard deviations it takes away: chi-squared where nothing is. */
  readonly gain: number;
  /** How much of the shape there is. */
  readonly size: number;
  /** The shape in that size. */
  readonly course: Float64Array;
}

const ANY_RINGING_DEG = 5;
const KEPT = WIND_TIMES_S.map((timeS) => Math.exp(-BLOCK_S / timeS));
const RATE = 1;
const WIND = 2;
const STATES = 6;

/**
 * Blocks as the model sees them: each one's deviation from what all before it predict, in its own
 * standard deviations. Any other course of heel can be put through the same glass, so that least
 * squares against it is generalised least squares, with roll, wind and mean heel taken out.
 */
export class Whitened {
  readonly count: number;
  private readonly step: RollBlockStep;
  private readonly deviations: Float64Array;
  /** Standard deviation of each block's deviation; NaN where the block is missing. */
  private readonly scales: Float64Array;
  /** Of each block, what a deviation of 1 moves of each state. */
  private readonly gains: Float64Array;
  /** Blocks before which nothing is known of the roll: a stretch was left out. */
  private readonly restarts: boolean[];

  /** The blocks may begin with any ringing. */
  constructor(heelDeg: ArrayLike<number>, model: RollModel) {
    this.step = rollBlockStep(model);
    this.count = heelDeg.length;
    this.deviations = new Float64Array(this.count);
    this.scales = new Float64Array(this.count).fill(Number.NaN);
    this.gains = new Float64Array(this.count * STATES);
    this.restarts = new Array<boolean>(this.count).fill(false);
    let first = 0;
    while (first < this.count && Number.isNaN(heelDeg[first])) first += 1;
    const filter = new HeelFilter(model, heelDeg[first] ?? 0);
    filter.letRing(ANY_RINGING_DEG);
    let missing = 0;
    for (let k = first; k < this.count; k++) {
      if (Number.isNaN(heelDeg[k])) {
        missing += 1;
        filter.skip();
        continue;
      }
      if (missing >= RESTART_AFTER_BLOCKS) {
        filter.letRing(ANY_RINGING_DEG);
        this.restarts[k] = true;
      }
      missing = 0;
      filter.push(heelDeg[k]!);
      const scale = Math.sqrt(filter.deviationVariance);
      this.scales[k] = scale;
      this.deviations[k] = filter.deviationDeg / scale;
      for (let i = 0; i < STATES; i++) {
        this.gains[k * STATES + i] = filter.gain[i]! / filter.deviationVariance;
      }
    }
  }

  /** Mean squared deviation over the last blocks once a course is taken off; about 1 where the model is all. */
  leftOver(course: Float64Array, blocks: number): number {
    let [sum, count] = [0, 0];
    for (let k = Math.max(0, this.count - blocks); k < this.count; k++) {
      if (Number.isNaN(this.scales[k])) continue;
      sum += (this.deviations[k]! - course[k]!) ** 2;
      count += 1;
    }
    return count > 0 ? sum / count : Number.POSITIVE_INFINITY;
  }

  /** Another course of heel through the same glass; 0 before `from`. */
  shape(heelDeg: (block: number) => number, from: number): Float64Array {
    const { a11, a12, a21, a22, m1, m2 } = this.step;
    const kept = KEPT;
    const out = new Float64Array(this.count);
    const winds = [0, 0, 0];
    let [roll, rate, mean] = [0, 0, 0];
    for (let k = Math.max(0, from); k < this.count; k++) {
      if (this.restarts[k]) {
        roll = 0;
        rate = 0;
      }
      let expected = m1 * roll + m2 * rate + mean;
      for (let n = 0; n < 3; n++) {
        winds[n] = kept[n]! * winds[n]!;
        expected += winds[n]!;
      }
      const rolled = a11 * roll + a12 * rate;
      rate = a21 * roll + a22 * rate;
      roll = rolled;
      const scale = this.scales[k]!;
      if (Number.isNaN(scale)) continue;
      const off = heelDeg(k) - expected;
      out[k] = off / scale;
      const at = k * STATES;
      roll += this.gains[at]! * off;
      rate += this.gains[at + RATE]! * off;
      for (let n = 0; n < 3; n++) winds[n] = winds[n]! + this.gains[at + WIND + n]! * off;
      mean += this.gains[at + STATES - 1]! * off;
    }
    return out;
  }

  explainedBy(shape: Float64Array): Explained {
    let square = 0;
    let product = 0;
    for (let k = 0; k < this.count; k++) {
      square += shape[k]! ** 2;
      product += shape[k]! * this.deviations[k]!;
    }
    const size = square > 0 ? product / square : 0;
    return { gain: size * product, size, course: shape.map((value) => size * value) };
  }

  /** Gain of two shapes together. */
  explainedByTwo(one: Float64Array, other: Float64Array): Explained {
    let [aa, ab, bb, ay, by] = [0, 0, 0, 0, 0];
    for (let k = 0; k < this.count; k++) {
      const [a, b, y] = [one[k]!, other[k]!, this.deviations[k]!];
      aa += a * a;
      ab += a * b;
      bb += b * b;
      ay += a * y;
      by += b * y;
    }
    const determinant = aa * bb - ab * ab;
    if (!(determinant > 1e-9 * aa * bb)) return this.explainedBy(one);
    const first = (bb * ay - ab * by) / determinant;
    const second = (aa * by - ab * ay) / determinant;
    const course = one.map((value, k) => first * value + second * other[k]!);
    return { gain: first * ay + second * by, size: Math.hypot(first, second), course };
  }
}

/** The heel, as block means, of a vessel at rest that is pushed: `pushDeg` is the heel it would hold her at. */
export function pushedHeel(
  model: RollModel,
  count: number,
  from: number,
  pushDeg: (sinceS: number) => number,
): Float64Array {
  const { a11, a12, a21, a22, m1, m2 } = rollBlockStep(model);
  const heelDeg = new Float64Array(count);
  let [roll, rate] = [0, 0];
  for (let k = Math.max(0, from); k < count; k++) {
    const push = pushDeg((k - from + 0.5) * BLOCK_S);
    const off = roll - push;
    heelDeg[k] = push + m1 * off + m2 * rate;
    roll = push + a11 * off + a12 * rate;
    rate = a21 * off + a22 * rate;
  }
  return heelDeg;
}
