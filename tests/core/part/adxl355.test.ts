import { expect, test } from 'vitest';
import {
  countsFromTemperatureC,
  gFromCounts,
  gPerCount,
  TEMPERATURE_INTERCEPT_COUNTS,
  temperatureCFromCounts,
} from '#core/part/adxl355.ts';

test('a g is 256 000, 128 000, 64 000 counts (Rev. 0, Table 2)', () => {
  expect(gFromCounts(256_000)).toBe(1);
  expect(gFromCounts(-128_000, 4)).toBe(-1);
  expect(gPerCount(8)).toBe(1 / 64_000);
  expect(() => gPerCount(16)).toThrow(RangeError);
});

test('both published intercepts are to be had; they are 3.65 K apart', () => {
  // 20 C: 0x78A by the later value, 0x769 by Rev. 0.
  expect(Math.round(countsFromTemperatureC(20))).toBe(0x78a);
  expect(Math.round(countsFromTemperatureC(20, TEMPERATURE_INTERCEPT_COUNTS.rev0))).toBe(0x769);
  const apart =
    temperatureCFromCounts(1885, TEMPERATURE_INTERCEPT_COUNTS.rev0) - temperatureCFromCounts(1885);
  expect(Math.abs(apart)).toBeCloseTo(3.65, 2);
});
