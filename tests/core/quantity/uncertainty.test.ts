import { expect, test } from 'vitest';
import {
  contributionsDegreesOfFreedom,
  contributionsTogether,
  uncertainFromContributions,
} from '#core/quantity/uncertainty.ts';

const cause = (standardUncertainty: number, degreesOfFreedom: number) => ({
  cause: 'a cause',
  standardUncertainty,
  degreesOfFreedom,
});
const known = Number.POSITIVE_INFINITY;

test('squares add', () => {
  expect(contributionsTogether([cause(3, 5), cause(4, known)])).toBe(5);
});

// GUM (JCGM 100:2008), H.1.6: end-gauge calibration, uncertainties in nm with their freedoms
test('the end gauge of the GUM has sixteen effective degrees of freedom', () => {
  const gauge = [cause(25, 18), cause(9.7, 25.6), cause(2.9, 50), cause(16.6, 2)];
  expect(Math.abs(contributionsTogether(gauge) - 32)).toBeLessThan(0.5);
  expect(Math.floor(contributionsDegreesOfFreedom(gauge))).toBe(16);
});

test('known causes alone limit nothing; none at all is a fault', () => {
  expect(contributionsDegreesOfFreedom([cause(1, known)])).toBe(known);
  expect(contributionsDegreesOfFreedom([cause(0, 3)])).toBe(known);
  expect(() => contributionsDegreesOfFreedom([])).toThrow(/input-too-few/);
  expect(uncertainFromContributions(7, [cause(2, 4)])).toEqual({
    value: 7,
    standardUncertainty: 2,
    degreesOfFreedom: expect.closeTo(4, 12),
  });
});
