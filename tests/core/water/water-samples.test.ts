import { expect, test } from 'vitest';
import { waterFromSamples } from '#core/water/water-samples.ts';

const sample = (place: string, densityKgM3: number, temperatureC: number | null = 12) => ({
  place,
  densityKgM3,
  temperatureC,
});

test('three samples: the mean as read, the hydrometer common, the scatter on top', () => {
  const { densityKgM3, advice } = waterFromSamples(
    [sample('forward', 1024), sample('amidships', 1025), sample('aft', 1026)],
    0.5,
  );
  expect(densityKgM3.value).toBe(1025);
  // scatter of the mean 1 / sqrt 3, the hydrometer not divided by anything
  expect(densityKgM3.standardUncertainty).toBeCloseTo(Math.sqrt(0.25 + 1 / 3), 12);
  expect(densityKgM3.degreesOfFreedom).toBeCloseTo((2 * (0.25 + 1 / 3) ** 2) / (1 / 3) ** 2, 12);
  expect(advice).toEqual([]);
});

test('no reading is reduced to 15 degrees: warm and cold water read alike stand alike', () => {
  const at = (temperatureC: number) =>
    waterFromSamples([sample('amidships', 1015, temperatureC)], 0.5).densityKgM3.value;
  expect([at(4), at(28)]).toEqual([1015, 1015]);
});

test.each([
  [993, 12, 'water-too-light'],
  [1045, 12, 'water-too-heavy'],
  [1000, null, 'water-temperature-missing'],
])('%d kg/m3 at %s deg C is thought over', (density, temperature, code) => {
  const { advice } = waterFromSamples([sample('amidships', density, temperature)], 0.5);
  expect(advice.map((one) => one.code)).toEqual([code]);
});

test('two waters are warned of, one water is not', () => {
  const apart = (kgM3: number) =>
    waterFromSamples([sample('fore', 1010), sample('aft', 1010 + kgM3)], 0.5).advice;
  expect(apart(1.5)).toEqual([]);
  expect(apart(6)).toMatchObject([{ code: 'water-layered', found: 6 }]);
});

test('no sample, and a specific gravity given for a density, are refused', () => {
  expect(() => waterFromSamples([], 0.5)).toThrow(/input-too-few/);
  expect(() => waterFromSamples([sample('amidships', 1.025)], 0.5)).toThrow(/input-range/);
});
