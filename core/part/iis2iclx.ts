/**
 * ST IIS2ICLX, two-axis inclinometer. Source: ST data sheet DS13005 Rev 7; the table is named
 * beside each constant.
 */

/** Register map, OUTX_L..OUTY_H: 16 bits, two's complement. */
export const MOST_COUNTS = 32767;
export const LEAST_COUNTS = -32768;

/** Mechanical characteristics (Table 2), sensitivity, g a count, by full scale in g. */
const G_PER_COUNT: Readonly<Record<number, number>> = {
  0.5: 0.015e-3,
  1: 0.031e-3,
  2: 0.061e-3,
  3: 0.122e-3,
};

/** The range the program sets: +-0.5 g, that is +-30 degrees. */
export const RANGE_G = 0.5;

/** Temperature sensor characteristics (OUT_TEMP): 256 counts a kelvin, 0 counts at 25 degC. */
const TEMPERATURE_COUNTS_PER_K = 256;
const TEMPERATURE_AT_ZERO_C = 25;

/**
 * Nominal sensitivity of a range, g a count. Each part differs from it by up to 2 % (Table 2), so
 * an angle needs a certificate. RangeError for a range the chip does not have.
 */
export function gPerCount(rangeG: number): number {
  const sensitivity = G_PER_COUNT[rangeG];
  if (sensitivity === undefined) {
    throw new RangeError(`an IIS2ICLX has no range of ${rangeG} g (0.5, 1, 2, 3)`);
  }
  return sensitivity;
}

/** Specific force along an axis, g, from its counts. Linear beyond 16 bits, so means may be given. */
export function gFromCounts(counts: number, rangeG: number = RANGE_G): number {
  return counts * gPerCount(rangeG);
}

/** Chip temperature, degC; its offset may be 15 K, so only changes of it mean anything. */
export function temperatureCFromCounts(counts: number): number {
  return TEMPERATURE_AT_ZERO_C + counts / TEMPERATURE_COUNTS_PER_K;
}

/** The counts of a chip temperature, not yet whole; what an emulated chip needs. */
export function countsFromTemperatureC(temperatureC: number): number {
  return (temperatureC - TEMPERATURE_AT_ZERO_C) * TEMPERATURE_COUNTS_PER_K;
}
