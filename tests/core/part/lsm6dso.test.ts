import { expect, test } from 'vitest';
import {
  countsFromTemperatureC,
  gFromCounts,
  gPerCount,
  temperatureCFromCounts,
} from '#core/part/lsm6dso.ts';

test('a count is 0.061 mg at +-2 g, and 25 degrees are none (driver lsm6dso-pid)', () => {
  expect(gFromCounts(1000)).toBeCloseTo(0.061, 12);
  expect(gPerCount(16)).toBe(0.488e-3);
  expect(() => gPerCount(0.5)).toThrow(RangeError);
  expect(temperatureCFromCounts(-1280)).toBe(20);
  expect(countsFromTemperatureC(26)).toBe(256);
});
