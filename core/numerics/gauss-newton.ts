import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { Fault } from '../fault/fault.ts';

/** A curve with unknown numbers, and where to begin to look for them. */
export interface CurveProblem {
  readonly seen: ArrayLike<number>;
  /** The curve at all places, written into `curve`. */
  readonly curveOf: (numbers: readonly number[], curve: Float64Array) => void;
  readonly start: readonly number[];
  /** A change of each number that moves the curve by little, for the slopes. */
  readonly reach: readonly number[];
}

export interface CurveFit {
  readonly numbers: readonly number[];
  /** Seen less curve. */
  readonly residuals: Float64Array;
  /** Slopes of the curve by each number, one array a number. */
  readonly slopes: readonly Float64Array[];
  /** Sum of squared residuals. */
  readonly rest: number;
}

const MOST_STEPS = 80;
/** A step that would lower the rest by less than this share of it ends the search. */
const GAIN_ENOUGH = 1e-14;
const MOST_DAMPING = 1e10;

/**
 * Least squares of a curve that is not straight in its numbers: Gauss and Newton's steps, each
 * held back after Marquardt (J. SIAM 11 (1963) 431, from memory) until it lowers the rest. Slopes
 * by central differences. Throws `no-convergence` when no end is found, or nothing determines a
 * number.
 */
export function fitCurve(problem: CurveProblem): CurveFit {
  let numbers = [...problem.start];
  let damping = 1e-3;
  let residuals = residualsAt(problem, numbers);
  let rest = squares(residuals);
  const scale = squares(Float64Array.from(problem.seen));
  for (let step = 0; step < MOST_STEPS; step++) {
    const slopes = slopesAt(problem, numbers);
    const { normal, gradient } = normalOf(slopes, residuals);
    let lower = false;
    let gain = 0;
    while (damping < MOST_DAMPING) {
      const move = held(normal, gradient, damping);
      const there = numbers.map((number, i) => number + move[i]!);
      const left = residualsAt(problem, there);
      const restThere = squares(left);
      if (restThere <= rest) {
        gain = rest - restThere;
        numbers = there;
        residuals = left;
        rest = restThere;
        damping = Math.max(damping / 10, 1e-12);
        lower = true;
        break;
      }
      damping *= 10;
    }
    if (!lower || gain <= GAIN_ENOUGH * rest + 1e-28 * scale) {
      return { numbers, residuals, slopes: slopesAt(problem, numbers), rest };
    }
  }
  throw new Fault('no-convergence', 'fit of a curve', `${MOST_STEPS} steps, rest ${rest}`);
}

function residualsAt({ seen, curveOf }: CurveProblem, numbers: readonly number[]): Float64Array {
  const left = new Float64Array(seen.length);
  curveOf(numbers, left);
  for (let k = 0; k < left.length; k++) left[k] = seen[k]! - left[k]!;
  return left;
}

function slopesAt({ seen, curveOf, reach }: CurveProblem, numbers: readonly number[]) {
  const below = new Float64Array(seen.length);
  return numbers.map((_, i) => {
    const above = new Float64Array(seen.length);
    const moved = (by: number) => numbers.map((number, k) => (k === i ? number + by : number));
    curveOf(moved(reach[i]!), above);
    curveOf(moved(-reach[i]!), below);
    for (let k = 0; k < above.length; k++) above[k] = (above[k]! - below[k]!) / (2 * reach[i]!);
    return above;
  });
}

function normalOf(slopes: readonly Float64Array[], residuals: Float64Array) {
  const normal = slopes.map((one) => slopes.map((other) => product(one, other)));
  const gradient = slopes.map((one) => product(one, residuals));
  return { normal, gradient };
}

/** The step of (N + damping diag N) move = gradient, numbers scaled to one size. */
function held(normal: number[][], gradient: readonly number[], damping: number): number[] {
  const size = normal.map((row, i) => Math.sqrt(row[i]!));
  if (size.some((one) => !(one > 0) || !Number.isFinite(one))) {
    throw new Fault('no-convergence', 'fit of a curve', 'a number has no effect on the curve');
  }
  const scaled = normal.map((row, i) =>
    row.map((value, j) => (i === j ? 1 + damping : value / (size[i]! * size[j]!))),
  );
  const right = Matrix.columnVector(gradient.map((value, i) => value / size[i]!));
  const move = new CholeskyDecomposition(new Matrix(scaled)).solve(right).to1DArray();
  return move.map((value, i) => value / size[i]!);
}

function product(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < one.length; k++) sum += one[k]! * other[k]!;
  return sum;
}

const squares = (values: Float64Array) => product(values, values);
