import { expect, test } from 'vitest';
import { tangentToDegrees } from '#core/session/tangent-to-degrees.ts';

test('at 45 degrees an angle moves half as much as its tangent', () => {
  const angle = tangentToDegrees({ value: 1, standardUncertainty: 0.01, degreesOfFreedom: 5 });
  expect(angle.value).toBeCloseTo(45, 12);
  expect(angle.standardUncertainty).toBeCloseTo((0.005 * 180) / Math.PI, 12);
  expect(angle.degreesOfFreedom).toBe(5);
});
