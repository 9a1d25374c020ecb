import { expect, test } from 'vitest';
import { stiffnessOfOneShift } from '#core/reduction/one-shift.ts';

test('100 tons moved 30 ft, 8 degrees, 9000 tons: GM 2.37 ft (Nicholls, p. 532)', () => {
  const stiffness = stiffnessOfOneShift(3000, Math.tan((8 * Math.PI) / 180));
  expect(stiffness / 9000).toBeCloseTo(2.37, 2);
});

test('a heel that did not change, or no number, is refused', () => {
  expect(() => stiffnessOfOneShift(3000, 0)).toThrow(/line-not-determined/);
  expect(() => stiffnessOfOneShift(Number.NaN, 1)).toThrow(/input-not-finite/);
});
