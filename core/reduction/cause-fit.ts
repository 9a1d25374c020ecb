/** What one more column, beside a level and a slope, leaves of the points. */
export interface ColumnFit {
  /** Size of the column, in the points' unit per unit of the column. */
  readonly size: number;
  readonly sizeError: number;
  /** Sum of squares left over without and with it. */
  readonly restBefore: number;
  readonly rest: number;
}

const TOO_ALIKE = 1e-9;

/** Points over x with some columns taken off, and what others explain of the rest. */
export class PointsRest {
  readonly rest: number;
  readonly count: number;
  readonly #basis: number[][];
  readonly #residual: number[];
  readonly #taken: number;

  constructor(points: readonly number[], taken: readonly (readonly number[])[]) {
    this.count = points.length;
    this.#taken = taken.length;
    this.#basis = [];
    for (const column of taken) {
      const left = this.#cleared(column);
      const length = Math.hypot(...left);
      if (length > TOO_ALIKE * Math.hypot(...column)) this.#basis.push(left.map((v) => v / length));
    }
    this.#residual = this.#cleared(points);
    this.rest = sumOfSquares(this.#residual);
  }

  /** Null where the column follows from what was taken off, or nothing would be left over. */
  with(column: readonly number[]): ColumnFit | null {
    const lowerDof = this.count - this.#taken - 1;
    const left = this.#cleared(column);
    const squares = sumOfSquares(left);
    if (lowerDof < 1 || squares <= TOO_ALIKE * sumOfSquares(column)) return null;
    const size = left.reduce((sum, one, i) => sum + one * this.#residual[i]!, 0) / squares;
    const rest = Math.max(0, this.rest - size * size * squares);
    return { size, sizeError: Math.sqrt(rest / lowerDof / squares), restBefore: this.rest, rest };
  }

  #cleared(column: readonly number[]): number[] {
    const left = [...column];
    for (const one of this.#basis) {
      let along = 0;
      for (let i = 0; i < left.length; i++) along += one[i]! * left[i]!;
      for (let i = 0; i < left.length; i++) left[i] = left[i]! - along * one[i]!;
    }
    return left;
  }
}

const sumOfSquares = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value * value, 0);

/** A scatter known beforehand, one standard deviation, as if `freedom` points had told it. */
export interface ClaimedScatter {
  readonly deviation: number;
  readonly freedom: number;
}

/**
 * Logarithm of how much better points are explained by a column with a size of its own than without
 * it, normal errors of unknown size about which something is `claimed` beforehand (normal and inverse
 * chi-squared, the size paid for as in Schwarz 1978, from memory), `places` for having been looked for
 * at so many.
 */
export function supportOf(
  fit: Pick<ColumnFit, 'restBefore' | 'rest'>,
  count: number,
  claimed: ClaimedScatter,
  places: number,
): number {
  const known = claimed.freedom * claimed.deviation ** 2;
  const exponent = (claimed.freedom + count - 2) / 2;
  const gain = exponent * Math.log((known + fit.restBefore) / (known + fit.rest));
  return gain - Math.log(count) / 2 - Math.log(places);
}
