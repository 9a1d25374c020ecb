/**
 * What a set of columns leaves of y (sum of squares) and how many of the columns are independent,
 * columns that follow from earlier ones being passed over. Orthogonalised twice, so the rest keeps
 * its digits. `lengths` are the columns' own lengths before anything was projected out of them: a
 * column that has lost all but 1e-9 of its length counts as dependent.
 */
export function restAndRank(
  columns: readonly (readonly number[])[],
  lengths: readonly number[],
  y: readonly number[],
): { rest: number; rank: number } {
  const basis: number[][] = [];
  const left = [...y];
  columns.forEach((column, k) => {
    const own = [...column];
    for (let pass = 0; pass < 2; pass++) for (const unit of basis) takeOff(own, unit);
    const length = Math.hypot(...own);
    if (!(length > 1e-9 * lengths[k]!)) return;
    const unit = own.map((value) => value / length);
    basis.push(unit);
    takeOff(left, unit);
  });
  for (const unit of basis) takeOff(left, unit);
  return { rest: left.reduce((sum, value) => sum + value * value, 0), rank: basis.length };
}

function takeOff(vector: number[], unit: readonly number[]): void {
  let along = 0;
  for (let i = 0; i < vector.length; i++) along += vector[i]! * unit[i]!;
  for (let i = 0; i < vector.length; i++) vector[i]! -= along * unit[i]!;
}
