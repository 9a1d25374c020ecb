import { expect, test } from 'vitest';
import {
  chiSquaredBeyond,
  chiSquaredCumulative,
  chiSquaredQuantile,
} from '#core/numerics/chi-squared.ts';
import table from './t-chi2-f-quantiles.json' with { type: 'json' };

test('agrees with a table calculated by mpmath at 30 digits to 1e-13', () => {
  expect(table.chi2.length).toBe(56);
  let worst = 0;
  for (const [dof, probability, quantile] of table.chi2 as [number, number, number][]) {
    worst = Math.max(worst, Math.abs(chiSquaredQuantile(probability, dof) / quantile - 1));
  }
  expect(worst).toBeLessThan(1e-13);
});

test('two degrees of freedom are an exponential', () => {
  expect(chiSquaredBeyond(3, 2)).toBeCloseTo(Math.exp(-1.5), 14);
  expect(chiSquaredCumulative(3, 2)).toBeCloseTo(1 - Math.exp(-1.5), 14);
});

test('refuses degrees of freedom that are not above zero', () => {
  expect(() => chiSquaredBeyond(1, -1)).toThrow(/input-range/);
});
