import { expect, test } from 'vitest';
import { freshWaterDensityKgM3, seaWaterDensityKgM3 } from '#core/water/density.ts';

// UNESCO Technical Papers in Marine Science 44 (1983), p. 19, at one atmosphere.
test('EOS-80 gives the check values of its own paper', () => {
  expect(seaWaterDensityKgM3(0, 5)).toBeCloseTo(999.96675, 5);
  expect(seaWaterDensityKgM3(35, 25)).toBeCloseTo(1023.34306, 5);
});

// CIPM formula of Tanaka 2001, worked apart from this program.
test('fresh water by the CIPM formula', () => {
  expect(freshWaterDensityKgM3(15)).toBeCloseTo(999.102572, 6);
  expect(freshWaterDensityKgM3(20)).toBeCloseTo(998.206746, 6);
});

// TEOS-10, absolute salinity as of standard sea water, from the Gibbs function worked apart from
// this program: practical salinity, temperature (ITS-90), kg/m3. EOS-80 stays within 15 g/m3.
test.each([
  [0, 10, 999.7024816906079],
  [0, 25, 997.0476487997785],
  [5, 0, 1003.9148484321862],
  [5, 5, 1003.9478434811851],
])('salinity %d at %d deg C lies near the newer equation of state', (salinity, t90, expected) => {
  expect(Math.abs(seaWaterDensityKgM3(salinity, 1.00024 * t90) - expected)).toBeLessThan(0.015);
});

test('a temperature no harbour has is refused', () => {
  expect(() => freshWaterDensityKgM3(60)).toThrow(/input-range/);
  expect(() => seaWaterDensityKgM3(35, -5)).toThrow(/input-range/);
  expect(() => seaWaterDensityKgM3(70, 10)).toThrow(/input-range/);
});
