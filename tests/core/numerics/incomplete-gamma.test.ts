import { expect, test } from 'vitest';
import { incompleteGamma } from '#core/numerics/incomplete-gamma.ts';

test('closed forms: a 1 and 2', () => {
  expect(incompleteGamma(1, 0.5).lower).toBeCloseTo(1 - Math.exp(-0.5), 14);
  expect(incompleteGamma(2, 6).upper / (7 * Math.exp(-6))).toBeCloseTo(1, 13);
});

test('both tails make one at large arguments, the middle a little over a half', () => {
  const { lower, upper } = incompleteGamma(1e6, 1e6);
  expect(lower + upper).toBeCloseTo(1, 15);
  // P(a, a) = 1/2 + 1 / (3 root(2 pi a)) + ...
  expect(lower).toBeCloseTo(0.5 + 1 / (3 * Math.sqrt(2 * Math.PI * 1e6)), 9);
});

test('nothing below zero', () => {
  expect(incompleteGamma(3, 0)).toEqual({ lower: 0, upper: 1 });
});
