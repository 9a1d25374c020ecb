import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fBeyond, fCumulative, fQuantile } from '#core/numerics/f-distribution.ts';
import { studentTBeyond } from '#core/numerics/student-t.ts';
import table from './t-chi2-f-quantiles.json' with { type: 'json' };

test('agrees with a table calculated by mpmath at 30 digits to 1e-13', () => {
  expect(table.F.length).toBe(90);
  let worst = 0;
  for (const row of table.F as [number, number, number, number][]) {
    const [upperDof, lowerDof, probability, quantile] = row;
    worst = Math.max(worst, Math.abs(fQuantile(probability, upperDof, lowerDof) / quantile - 1));
  }
  expect(worst).toBeLessThan(1e-13);
});

test('F of one and n is the square of t', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-3, max: 40, noNaN: true }),
      fc.integer({ min: 1, max: 200 }),
      (t, dof) => {
        const beyond = studentTBeyond(t, dof);
        expect(Math.abs(fBeyond(t * t, 1, dof) / beyond - 1)).toBeLessThan(1e-11);
      },
    ),
  );
});

test('both tails make one', () => {
  expect(fCumulative(2.5, 6, 14) + fBeyond(2.5, 6, 14)).toBeCloseTo(1, 15);
  expect(fCumulative(0, 6, 14)).toBe(0);
  expect(fBeyond(Number.POSITIVE_INFINITY, 6, 14)).toBe(0);
});

test('refuses degrees of freedom that are not above zero and finite', () => {
  expect(() => fBeyond(1, 0, 3)).toThrow(/input-range/);
  expect(() => fQuantile(0.9, 3, Number.POSITIVE_INFINITY)).toThrow(/input-range/);
});
