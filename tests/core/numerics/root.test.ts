import { expect, test } from 'vitest';
import { bracketedRoot } from '#core/numerics/root.ts';

test('finds the root of two as closely as doubles allow', () => {
  expect(bracketedRoot((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 15);
});

test('does not need many steps for a smooth function', () => {
  let calls = 0;
  bracketedRoot(
    (x) => {
      calls += 1;
      return Math.exp(x) - 3;
    },
    -10,
    10,
  );
  expect(calls).toBeLessThan(30);
});

test('a jump, a flat stretch and a root at the end are no trouble', () => {
  expect(bracketedRoot((x) => (x < 0.7 ? -1 : 1), 0, 1)).toBeCloseTo(0.7, 12);
  expect(bracketedRoot((x) => x ** 9, -1, 2)).toBeCloseTo(0, 1);
  expect(bracketedRoot((x) => x - 1, 1, 4)).toBe(1);
});

test('no change of sign is refused', () => {
  expect(() => bracketedRoot((x) => x * x + 1, -1, 1)).toThrow(/no-convergence/);
  expect(() => bracketedRoot(() => Number.NaN, -1, 1)).toThrow(/no-convergence/);
});

test('tiny values are a change of sign though their product is nought, and a root may be tiny', () => {
  expect(bracketedRoot((x) => (x - 0.25) * 1e-300, 0, 1)).toBeCloseTo(0.25, 12);
  expect(bracketedRoot((x) => 1e-280 - x, 0, 1)).toBe(1e-280);
});
