import fc from 'fast-check';
import { expect, test } from 'vitest';
import { studentTBeyond, studentTCumulative, studentTQuantile } from '#core/numerics/student-t.ts';
import table from './t-chi2-f-quantiles.json' with { type: 'json' };

// Quantiles calculated with mpmath at 30 digits. What is left of the difference at p 0.99999 is
// the rounding of p itself: half a unit of 1.1e-16 beside a tail of 1e-5.
test('agrees with a 30-digit table to 5e-12', () => {
  expect(table.t.length).toBe(119);
  let worst = 0;
  for (const [dof, probability, quantile] of table.t as [number, number, number][]) {
    const relative = Math.abs(studentTQuantile(probability, dof) / quantile - 1);
    worst = Math.max(worst, relative);
  }
  expect(worst).toBeLessThan(5e-12);
});

test('is symmetrical, and zero in the middle', () => {
  expect(studentTQuantile(0.5, 3)).toBe(0);
  expect(studentTQuantile(0.25, 7)).toBeCloseTo(-studentTQuantile(0.75, 7), 14);
});

test('becomes the normal distribution without end of freedom', () => {
  // 1.959963984540054: the normal 97.5 % point, any table of the normal distribution
  expect(studentTQuantile(0.975, Number.POSITIVE_INFINITY)).toBeCloseTo(1.959963984540054, 13);
  expect(studentTQuantile(0.975, 1e9)).toBeCloseTo(1.959963984540054, 7);
});

test('one degree of freedom is the Cauchy distribution', () => {
  expect(studentTCumulative(1, 1)).toBeCloseTo(0.75, 14);
  expect(studentTBeyond(1e200, 1)).toBe(0);
});

test('cumulative undoes quantile at any degrees of freedom', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }),
      fc.double({ min: 0.7, max: 5e6, noNaN: true }),
      (probability, dof) => {
        const back = studentTCumulative(studentTQuantile(probability, dof), dof);
        // The continued fraction takes more terms the larger dof is, each with its rounding.
        expect(Math.abs(back - probability)).toBeLessThan(1e-12 * Math.max(1, dof / 1e5));
      },
    ),
  );
});

test('refuses probabilities and degrees of freedom that mean nothing', () => {
  expect(() => studentTQuantile(1, 3)).toThrow(/input-range/);
  expect(() => studentTQuantile(Number.NaN, 3)).toThrow(/input-not-finite/);
  expect(() => studentTQuantile(0.9, 0)).toThrow(/input-range/);
});
