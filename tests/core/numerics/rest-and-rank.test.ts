import { expect, test } from 'vitest';
import { orthogonalised, restAndRank } from '#core/numerics/rest-and-rank.ts';

const length = (column: number[]) => Math.hypot(...column);

test('counts independent columns and what they leave', () => {
  const columns = [
    [1, 1, 1],
    [0, 1, 2],
    [1, 2, 3],
  ];
  const { rest, rank } = restAndRank(columns, columns.map(length), [1, 0, 1]);
  expect(rank).toBe(2);
  // residuals of a line through 1, 0, 1: 1/3, -2/3, 1/3
  expect(rest).toBeCloseTo(6 / 9, 14);
});

test('the basis is orthonormal even for columns nearly alike', () => {
  const columns = [
    [1, 1, 1, 1],
    [1, 1, 1, 1 + 1e-6],
    [1, 1, 1 + 1e-6, 1],
  ];
  const { basis } = orthogonalised(columns, columns.map(length), [1, 2, 3, 4]);
  expect(basis).toHaveLength(3);
  basis.forEach((one, i) => {
    basis.forEach((other, k) => {
      const product = one.reduce((sum, value, row) => sum + value * other[row]!, 0);
      expect(product).toBeCloseTo(i === k ? 1 : 0, 12);
    });
  });
});

test('a column projected to nothing counts for nothing', () => {
  expect(restAndRank([[0, 1e-17]], [1], [3, 4])).toEqual({ rest: 25, rank: 0 });
});
