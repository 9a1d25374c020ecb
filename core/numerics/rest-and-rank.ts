/** Columns brought to an orthonormal basis, and what they leave of y. */
export interface Orthogonalised {
  /** One unit vector for each independent column. */
  readonly basis: readonly (readonly number[])[];
  /** Length each independent column had left when it was its turn. */
  readonly lengths: readonly number[];
  readonly left: readonly number[];
}

/**
 * Orthogonalises columns in their order, passing over those that follow from earlier ones, and
 * takes them off y. Twice over, so the rest keeps its digits. `ownLengths` are the columns'
 * lengths before anything was projected out of them: a column that has lost all but 1e-9 of its
 * length counts as dependent.
 */
export function orthogonalised(
  columns: readonly (readonly number[])[],
  ownLengths: readonly number[],
  y: readonly number[],
): Orthogonalised {
  const basis: number[][] = [];
  const lengths: number[] = [];
  const left = [...y];
  columns.forEach((column, k) => {
    const own = [...column];
    for (let pass = 0; pass < 2; pass++) for (const unit of basis) takeOff(own, unit);
    const length = Math.hypot(...own);
    if (!(length > 1e-9 * ownLengths[k]!)) return;
    const unit = own.map((value) => value / length);
    basis.push(unit);
    lengths.push(length);
    takeOff(left, unit);
  });
  for (const unit of basis) takeOff(left, unit);
  return { basis, lengths, left };
}

/** What a set of columns leaves of y (sum of squares) and how many of them are independent. */
export function restAndRank(
  columns: readonly (readonly number[])[],
  ownLengths: readonly number[],
  y: readonly number[],
): { rest: number; rank: number } {
  const { basis, left } = orthogonalised(columns, ownLengths, y);
  return { rest: left.reduce((sum, value) => sum + value * value, 0), rank: basis.length };
}

function takeOff(vector: number[], unit: readonly number[]): void {
  let along = 0;
  for (let i = 0; i < vector.length; i++) along += vector[i]! * unit[i]!;
  for (let i = 0; i < vector.length; i++) vector[i]! -= along * unit[i]!;
}
