import { expect, test } from 'vitest';
import { plainUncertain, uncertainHalfWidth95 } from '#core/numerics/coverage.ts';

test('six freedoms widen the interval to 2.447 standard uncertainties', () => {
  const six = { value: 1, standardUncertainty: 2, degreesOfFreedom: 6 };
  expect(uncertainHalfWidth95(six)).toBeCloseTo(2 * 2.44691185114497, 12);
});

test('as plain data infinite freedom is null and nothing is rounded', () => {
  const known = {
    value: 0.1 + 0.2,
    standardUncertainty: 1,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
  };
  const plain = plainUncertain(known);
  expect(plain.degreesOfFreedom).toBeNull();
  expect(plain.value).toBe(0.1 + 0.2);
  expect(plain.halfWidth95).toBeCloseTo(1.959963984540054, 12);
});
