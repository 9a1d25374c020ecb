import { expect, test } from 'vitest';
import {
  countsFromPressurePa,
  countsFromTemperatureC,
  pressurePaFromCounts,
  temperatureCFromCounts,
} from '#core/part/abp2.ts';

test('the range lies between 10 and 90 % of 24 bits', () => {
  expect(pressurePaFromCounts(1_677_722, [0, 6000])).toBe(0);
  expect(pressurePaFromCounts(15_099_494, [-600, 600])).toBe(600);
  expect(countsFromPressurePa(3000, [0, 6000])).toBeCloseTo(2 ** 23, -1);
  // Beyond the range it goes on: nothing is clipped.
  expect(pressurePaFromCounts(2 ** 24 - 1, [0, 6000])).toBeGreaterThan(6700);
});

test('200 K lie over the 24 bits, from -50 C on', () => {
  expect(temperatureCFromCounts(0)).toBe(-50);
  expect(temperatureCFromCounts(countsFromTemperatureC(21.5))).toBeCloseTo(21.5, 12);
});
