import { Fault } from '../fault/fault.ts';

/** A straight line through (atX, y), and how far the points stand above it. */
export interface EnvelopeLine {
  readonly atX: number;
  readonly y: number;
  readonly slope: number;
  /** Heights of the points over the line in the order given; none is negative beyond rounding. */
  readonly heights: Float64Array;
}

/**
 * The straight line that stays below every point and leaves the least total height above it.
 * It is the edge of the lower convex hull over the mean of x: of all lines below the points the
 * sum of heights is smallest for the one highest at the mean. Delays only ever add, so of pairs
 * (time there, arrival here) this is the relation of the two clocks with the least delay in it.
 *
 * `x` must not decrease; both columns in one unit of the caller's. Cost O(n). A vertical step of
 * equal x keeps the lowest. Method: Zhang, Liu, Xia, "Clock synchronization algorithms for
 * network measurements", IEEE INFOCOM 2002 (from memory).
 *
 * Throws `input-unequal-length`, `input-too-few` (under two different x), `input-not-finite`.
 */
export function lowerEnvelopeLine(x: readonly number[], y: readonly number[]): EnvelopeLine {
  if (x.length !== y.length) {
    throw new Fault('input-unequal-length', 'lower envelope', `${x.length} and ${y.length} values`);
  }
  const meanX = centreOf(x);
  const hull = lowerHull(x, y);
  if (hull.length < 2) {
    throw new Fault('input-too-few', 'lower envelope', `${hull.length} different abscissae`);
  }
  let right = hull.findIndex((point) => x[point]! >= meanX);
  if (right < 1) right = 1;
  const a = hull[right - 1]!;
  const b = hull[right]!;
  const slope = (y[b]! - y[a]!) / (x[b]! - x[a]!);
  const yAtMean = y[a]! + slope * (meanX - x[a]!);
  const heights = Float64Array.from(x, (xi, i) => y[i]! - (yAtMean + slope * (xi - meanX)));
  return { atX: meanX, y: yAtMean, slope, heights };
}

/** Mean taken about the first value, so that a large common offset costs no digits. */
function centreOf(x: readonly number[]): number {
  const first = x[0];
  if (first === undefined) throw new Fault('input-too-few', 'lower envelope', 'no values');
  let sum = 0;
  for (const value of x) sum += value - first;
  return first + sum / x.length;
}

/** Indices of the lower convex hull from left to right (Andrew's monotone chain). */
function lowerHull(x: readonly number[], y: readonly number[]): number[] {
  const hull: number[] = [];
  for (let i = 0; i < x.length; i++) {
    const xi = x[i]!;
    const yi = y[i]!;
    if (!Number.isFinite(xi) || !Number.isFinite(yi)) {
      throw new Fault('input-not-finite', 'lower envelope', `value ${i} is (${xi}, ${yi})`);
    }
    const last = hull[hull.length - 1];
    if (last !== undefined && xi < x[last]!) {
      throw new Fault('input-shape', 'lower envelope', `abscissa ${i} goes back`);
    }
    if (last !== undefined && xi === x[last]!) {
      if (yi >= y[last]!) continue;
      hull.pop();
    }
    while (hull.length >= 2 && !turnsUp(x, y, hull[hull.length - 2]!, hull[hull.length - 1]!, i)) {
      hull.pop();
    }
    hull.push(i);
  }
  return hull;
}

function turnsUp(
  x: readonly number[],
  y: readonly number[],
  a: number,
  b: number,
  c: number,
): boolean {
  return (x[b]! - x[a]!) * (y[c]! - y[a]!) - (y[b]! - y[a]!) * (x[c]! - x[a]!) > 0;
}
