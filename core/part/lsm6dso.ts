/**
 * ST LSM6DSO, three-axis accelerometer (its gyroscope is not used). Source: the maker's own driver
 * lsm6dso-pid (register fields, conversion functions); its data sheet was not at hand.
 */

/** OUTX_L_A..OUTZ_H_A: 16 bits, two's complement. */
export const MOST_COUNTS = 32767;
export const LEAST_COUNTS = -32768;

/** Sensitivity, g a count, by full scale in g (functions lsm6dso_from_fs2_to_mg and its like). */
const G_PER_COUNT: Readonly<Record<number, number>> = {
  2: 0.061e-3,
  4: 0.122e-3,
  8: 0.244e-3,
  16: 0.488e-3,
};

/** The range the program sets. */
export const RANGE_G = 2;

/** OUT_TEMP: 256 counts a kelvin, 0 counts at 25 degC (lsm6dso_from_lsb_to_celsius). */
const TEMPERATURE_COUNTS_PER_K = 256;
const TEMPERATURE_AT_ZERO_C = 25;

/** Drift of the zero with temperature, g a kelvin, typical (second-hand note of the sheet). */
export const ZERO_PER_K_G = 0.1e-3;

/** Nominal sensitivity of a range, g a count. RangeError for a range the chip does not have. */
export function gPerCount(rangeG: number): number {
  const sensitivity = G_PER_COUNT[rangeG];
  if (sensitivity === undefined) {
    throw new RangeError(`an LSM6DSO has no range of ${rangeG} g (2, 4, 8, 16)`);
  }
  return sensitivity;
}

/** Specific force along an axis, g, from its counts. Linear beyond 16 bits, so means may be given. */
export function gFromCounts(counts: number, rangeG: number = RANGE_G): number {
  return counts * gPerCount(rangeG);
}

/** Chip temperature, degC; only changes of it mean anything. */
export function temperatureCFromCounts(counts: number): number {
  return TEMPERATURE_AT_ZERO_C + counts / TEMPERATURE_COUNTS_PER_K;
}

/** The counts of a chip temperature, not yet whole; what an emulated chip needs. */
export function countsFromTemperatureC(temperatureC: number): number {
  return (temperatureC - TEMPERATURE_AT_ZERO_C) * TEMPERATURE_COUNTS_PER_K;
}
