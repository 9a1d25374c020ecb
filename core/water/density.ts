import { checkRange } from '../quantity/check.ts';

/**
 * Density of fresh water free of air at one atmosphere, kg/m3; temperature ITS-90, 0 to 40 deg C.
 * M. Tanaka et al., Recommended table for the density of water between 0 and 40 C, Metrologia 38
 * (2001) 301, the CIPM formula. Example: 15 deg C gives 999.102572.
 */
export function freshWaterDensityKgM3(temperatureC: number): number {
  const t = checkRange(temperatureC, 0, 40, 'water temperature, deg C');
  const change = ((t - 3.983035) ** 2 * (t + 301.797)) / (522528.9 * (t + 69.34881));
  return 999.97495 * (1 - change);
}

/** Powers of temperature, the lowest first. */
function polynomial(coefficients: readonly number[], t: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * t + coefficient, 0);
}

const PURE = [999.842594, 6.793952e-2, -9.09529e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9];
const SALT = [8.24493e-1, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9];
const SALT_AND_HALF = [-5.72466e-3, 1.0227e-4, -1.6546e-6];
const SALT_SQUARED = 4.8314e-4;

/**
 * Density of sea water at one atmosphere, kg/m3, by the equation of state EOS-80; practical
 * salinity 0 to 42, temperature IPTS-68, -2 to 40 deg C. UNESCO Technical Papers in Marine Science
 * 44 (1983), check values on p. 19: salinity 35 at 25 deg C gives 1023.34306. The coefficients are
 * from memory, held by those values and by the table of the newer equation of state in the tests.
 */
export function seaWaterDensityKgM3(salinity: number, temperatureC: number): number {
  const s = checkRange(salinity, 0, 42, 'practical salinity');
  const t = checkRange(temperatureC, -2, 40, 'water temperature, deg C');
  return (
    polynomial(PURE, t) +
    s * polynomial(SALT, t) +
    s ** 1.5 * polynomial(SALT_AND_HALF, t) +
    s * s * SALT_SQUARED
  );
}
