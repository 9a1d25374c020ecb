import { expect, test } from 'vitest';
import {
  isSound,
  pressurePaFromRatio,
  ratioFromCounts,
  voltsFromPressurePa,
} from '#core/part/mpx5010.ts';

const countsOf = (volts: number) => Math.round(volts / 187.5e-6);

test('0.2 V at nothing and 4.7 V at 10 kPa of 5 V, 450 mV for a kilopascal (data sheet)', () => {
  expect(voltsFromPressurePa(0, 5)).toBeCloseTo(0.2, 12);
  expect(voltsFromPressurePa(10_000, 5)).toBeCloseTo(4.7, 12);
  expect(voltsFromPressurePa(3000, 5) - voltsFromPressurePa(2000, 5)).toBeCloseTo(0.45, 12);
});

test('its supply does not show: the same pressure at 4.8 V and at 5.2 V', () => {
  const pressures = [4.8, 5.2].map((supplyV) => {
    const output = countsOf(voltsFromPressurePa(4000, supplyV));
    return pressurePaFromRatio(ratioFromCounts(output, countsOf(supplyV)));
  });
  for (const pressure of pressures) expect(Math.abs(pressure - 4000)).toBeLessThan(0.5);
});

test('a broken wire, a short circuit and a weak supply are not sound', () => {
  const fiveVolts = countsOf(5);
  expect(isSound(countsOf(2), fiveVolts)).toBe(true);
  expect(isSound(countsOf(0.01), fiveVolts)).toBe(false);
  expect(isSound(countsOf(4.97), fiveVolts)).toBe(false);
  expect(isSound(countsOf(2), countsOf(4.6))).toBe(false);
  expect(isSound(countsOf(2), 0)).toBe(false);
});
