import { expect, test } from 'vitest';
import { incompleteBeta } from '#core/numerics/incomplete-beta.ts';

test('closed forms: I(1, b) and I(2, 2)', () => {
  expect(incompleteBeta(1, 3, 0.2, 0.8).lower).toBeCloseTo(1 - 0.8 ** 3, 14);
  expect(incompleteBeta(2, 2, 0.3, 0.7).lower).toBeCloseTo(3 * 0.09 - 2 * 0.027, 14);
});

test('tails beyond the last digit of one keep theirs', () => {
  // I_x(1, b) = 1 - (1 - x)^b: the upper tail is (1 - x)^b itself
  const { upper } = incompleteBeta(1, 20, 0.9, 0.1);
  expect(upper / 1e-20).toBeCloseTo(1, 12);
});

test('ends', () => {
  expect(incompleteBeta(2, 3, 0, 1)).toEqual({ lower: 0, upper: 1 });
  expect(incompleteBeta(2, 3, 1, 0)).toEqual({ lower: 1, upper: 0 });
});
