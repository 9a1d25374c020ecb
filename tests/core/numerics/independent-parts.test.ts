import { expect, test } from 'vitest';
import { independentParts } from '#core/numerics/independent-parts.ts';

test('the parts make the covariance again, one left out where there is no variance', () => {
  const covariance = [
    [4, 2, 0],
    [2, 3, 0],
    [0, 0, 0],
  ];
  const parts = independentParts(covariance);
  expect(parts).toHaveLength(2);
  covariance.forEach((row, i) => {
    row.forEach((value, j) => {
      expect(parts.reduce((sum, part) => sum + part[i]! * part[j]!, 0)).toBeCloseTo(value, 12);
    });
  });
});

test('what is no covariance is refused', () => {
  expect(() =>
    independentParts([
      [1, 2],
      [2, 1],
    ]),
  ).toThrow(/input-range/);
});
