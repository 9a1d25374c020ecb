import { Matrix, QrDecomposition } from 'ml-matrix';
import { Fault } from '../fault/fault.ts';
import { checkAllFinite, checkEqualLength } from '../quantity/check.ts';

/** A straight line y = intercept + slope x and what its residuals leave. */
export interface StraightLine {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptUncertainty: number;
  readonly slopeUncertainty: number;
  /** Residual standard deviation; 0 when the points lie on the line exactly. */
  readonly residualDeviation: number;
  readonly degreesOfFreedom: number;
  readonly rSquared: number;
}

/**
 * Ordinary least squares of y on x, at least three points. Both are centred before anything is
 * summed, so x may be as far from zero as today's epoch milliseconds.
 */
export function straightLine(x: readonly number[], y: readonly number[]): StraightLine {
  checkColumns(x, y, 3);
  const xMean = mean(x);
  const yMean = mean(y);
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let i = 0; i < x.length; i++) {
    const dx = x[i]! - xMean;
    const dy = y[i]! - yMean;
    sxx += dx * dx;
    sxy += dx * dy;
    syy += dy * dy;
  }
  if (sxx === 0) throw new Fault('line-not-determined', 'x', `all ${x.length} are ${x[0]}`);
  const slope = sxy / sxx;
  const rest = sumOf(x, (value, i) => (y[i]! - yMean - slope * (value - xMean)) ** 2);
  const degreesOfFreedom = x.length - 2;
  const residualDeviation = Math.sqrt(rest / degreesOfFreedom);
  return {
    intercept: yMean - slope * xMean,
    slope,
    interceptUncertainty: residualDeviation * Math.sqrt(1 / x.length + (xMean * xMean) / sxx),
    slopeUncertainty: residualDeviation / Math.sqrt(sxx),
    residualDeviation,
    degreesOfFreedom,
    rSquared: syy === 0 ? 1 : 1 - rest / syy,
  };
}

/** A line through the origin, y = slope x; for comparison only, never for an inclining test. */
export function lineThroughOrigin(
  x: readonly number[],
  y: readonly number[],
): Omit<StraightLine, 'intercept' | 'interceptUncertainty' | 'rSquared'> {
  checkColumns(x, y, 2);
  const sxx = sumOf(x, (value) => value * value);
  if (sxx === 0) throw new Fault('line-not-determined', 'x', 'all are zero');
  const slope = sumOf(x, (value, i) => value * y[i]!) / sxx;
  const degreesOfFreedom = x.length - 1;
  const rest = sumOf(x, (value, i) => (y[i]! - slope * value) ** 2);
  const residualDeviation = Math.sqrt(rest / degreesOfFreedom);
  return {
    slope,
    slopeUncertainty: residualDeviation / Math.sqrt(sxx),
    residualDeviation,
    degreesOfFreedom,
  };
}

export interface LeastSquares {
  readonly coefficients: readonly number[];
  /** Sum of squared residuals. */
  readonly rest: number;
  readonly residuals: readonly number[];
  /** Inverse of (design transposed times design): covariance per unit variance of y. */
  readonly cofactor: readonly (readonly number[])[];
}

/**
 * Least squares for any design of full column rank, by QR (never by normal equations). Columns are
 * brought to equal length first; a column that is a sum of others is a fault.
 */
export function leastSquares(
  design: readonly (readonly number[])[],
  y: readonly number[],
): LeastSquares {
  checkEqualLength(design, y, 'design and y');
  const columns = design[0]?.length ?? 0;
  if (design.length < columns || columns === 0) {
    throw new Fault('line-not-determined', 'design', `${design.length} rows, ${columns} columns`);
  }
  const lengths = Array.from({ length: columns }, (_, k) =>
    Math.hypot(...design.map((row) => row[k]!)),
  );
  const zero = lengths.indexOf(0);
  if (zero >= 0) throw new Fault('line-not-determined', 'design', `column ${zero} is zero`);
  const scaled = new Matrix(design.map((row) => row.map((value, k) => value / lengths[k]!)));
  const qr = new QrDecomposition(scaled);
  const upper = qr.upperTriangularMatrix;
  for (let k = 0; k < columns; k++) {
    if (Math.abs(upper.get(k, k)) < 1e-10) {
      throw new Fault('line-not-determined', 'design', `column ${k} is a sum of the others`);
    }
  }
  const solved = qr.solve(Matrix.columnVector([...y])).to1DArray();
  const inverse = qr.upperTriangularMatrix.clone();
  const upperInverse = invertUpper(inverse, columns);
  const cofactor = Array.from({ length: columns }, (_, i) =>
    Array.from({ length: columns }, (_, k) => {
      let sum = 0;
      for (let l = Math.max(i, k); l < columns; l++)
        sum += upperInverse[i]![l]! * upperInverse[k]![l]!;
      return sum / (lengths[i]! * lengths[k]!);
    }),
  );
  const residuals = y.map((value, i) => {
    let fitted = 0;
    for (let k = 0; k < columns; k++) fitted += scaled.get(i, k) * solved[k]!;
    return value - fitted;
  });
  return {
    coefficients: solved.map((value, k) => value / lengths[k]!),
    rest: residuals.reduce((sum, value) => sum + value * value, 0),
    residuals,
    cofactor,
  };
}

function invertUpper(upper: Matrix, size: number): number[][] {
  const inverse = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let column = 0; column < size; column++) {
    inverse[column]![column] = 1 / upper.get(column, column);
    for (let row = column - 1; row >= 0; row--) {
      let sum = 0;
      for (let k = row + 1; k <= column; k++) sum += upper.get(row, k) * inverse[k]![column]!;
      inverse[row]![column] = -sum / upper.get(row, row);
    }
  }
  return inverse;
}

function checkColumns(x: readonly number[], y: readonly number[], least: number): void {
  checkEqualLength(x, y, 'x and y');
  checkAllFinite(x, 'x');
  checkAllFinite(y, 'y');
  if (x.length < least) throw new Fault('input-too-few', 'x', `${x.length}, at least ${least}`);
}

/** Mean taken about the first value, so that a large common part costs no digits. */
function mean(values: readonly number[]): number {
  const first = values[0]!;
  return first + sumOf(values, (value) => value - first) / values.length;
}

function sumOf(values: readonly number[], term: (value: number, index: number) => number): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += term(values[i]!, i);
  return sum;
}
