import { expect, test } from 'vitest';
import { inclinometerPart } from '#core/part/inclinometer-parts.ts';

test('of three axes gravity cancels: heel is the same under any g', () => {
  const part = inclinometerPart('adxl355')!;
  for (const gravity of [0.9973, 1, 1.002]) {
    const counts = [2, 88].map((deg) => 256_000 * gravity * Math.sin((deg * Math.PI) / 180));
    expect(part.sine(counts)).toBeCloseTo(Math.sin((2 * Math.PI) / 180), 12);
  }
});

test('upside down or on its side it tells nothing', () => {
  const part = inclinometerPart('lsm6dso')!;
  expect(part.sine([100, -16_000])).toBeNull();
  expect(part.sine([100, 0])).toBeNull();
});

test('the warmth of an ADXL355 goes by the intercept of its revision', () => {
  const part = inclinometerPart('adxl355')!;
  expect(part.temperatureC(1852, { temperatureInterceptCounts: 1852 })).toBe(25);
  expect(part.temperatureC(1885, undefined)).toBe(25);
});

test('only the cheap one is a second sensor, and what is no inclinometer is none', () => {
  expect(inclinometerPart('lsm6dso')?.secondBecause).toMatch(/0\.0057 degree a kelvin/);
  expect(inclinometerPart('iis2iclx')?.secondBecause).toBeNull();
  expect(inclinometerPart('ads1115')).toBeUndefined();
  expect(inclinometerPart('constructor')).toBeUndefined();
});
