import { expect, test } from 'vitest';
import { positiveQuantile } from '#core/numerics/quantile.ts';

test('undoes a falling and a rising probability, far tails too', () => {
  expect(positiveQuantile((x) => Math.exp(-x), 1e-9)).toBeCloseTo(9 * Math.LN10, 12);
  expect(positiveQuantile((x) => 1 - Math.exp(-x), 0.5)).toBeCloseTo(Math.LN2, 14);
  expect(positiveQuantile((x) => x / (1 + x), 1e-7) / 1e-7).toBeCloseTo(1, 6);
});

test('a probability never reached is refused', () => {
  expect(() => positiveQuantile(() => 0.2, 0.5)).toThrow(/no-convergence/);
});
