import { expect, test } from 'vitest';
import { logBeta, logGamma } from '#core/numerics/log-gamma.ts';

test('factorials and the half', () => {
  expect(logGamma(1)).toBeCloseTo(0, 14);
  expect(logGamma(11)).toBeCloseTo(Math.log(3628800), 13);
  expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 14);
});

test('beta keeps its digits where the gammas would cancel', () => {
  expect(logBeta(2, 3)).toBeCloseTo(Math.log(1 / 12), 14);
  // B(a, 1) is 1 / a
  expect(logBeta(1e9, 1)).toBeCloseTo(-Math.log(1e9), 13);
  // B(a, 1/2) is root(pi / a) (1 + 1/8a + ...)
  const a = 1e10;
  expect(logBeta(a, 0.5)).toBeCloseTo(0.5 * Math.log(Math.PI / a) + 1 / (8 * a), 14);
});
