/**
 * Analog Devices ADXL355, three-axis accelerometer. Source: data sheet ADXL354/ADXL355 Rev. 0
 * (9/2016); the table is named beside each constant.
 */

/** Registers XDATA3..ZDATA1 (Tables 20 to 28): 20 bits, two's complement. */
export const MOST_COUNTS = 524_287;
export const LEAST_COUNTS = -524_288;

/** Specifications (Table 2), sensitivity, counts a g, by full scale in g. */
const COUNTS_PER_G: Readonly<Record<number, number>> = { 2: 256_000, 4: 128_000, 8: 64_000 };

/** The range the program sets: +-2.048 g. */
export const RANGE_G = 2;

/** Specifications (Table 2), temperature sensor: slope, counts a kelvin; falls as it warms. */
const TEMPERATURE_COUNTS_PER_K = -9.05;
const TEMPERATURE_AT_INTERCEPT_C = 25;

/**
 * Counts at 25 degC. Published values disagree: 1852 in Rev. 0 (Table 2), 1885 in the drivers
 * written after later revisions (Linux iio adxl355, the maker's own no-OS). 33 counts are 3.65 K;
 * only changes of temperature are used.
 */
export const TEMPERATURE_INTERCEPT_COUNTS = { rev0: 1852, later: 1885 } as const;

/**
 * Nominal sensitivity of a range, g a count. Each part differs from it by up to 8 % (Table 2:
 * 235 520 to 276 480 counts a g). RangeError for a range the chip does not have.
 */
export function gPerCount(rangeG: number): number {
  const countsPerG = COUNTS_PER_G[rangeG];
  if (countsPerG === undefined) {
    throw new RangeError(`an ADXL355 has no range of ${rangeG} g (2, 4, 8)`);
  }
  return 1 / countsPerG;
}

/** Specific force along an axis, g, from its counts. Linear beyond 20 bits, so means may be given. */
export function gFromCounts(counts: number, rangeG: number = RANGE_G): number {
  return counts * gPerCount(rangeG);
}

/** Chip temperature, degC, by the intercept of a revision of the sheet. */
export function temperatureCFromCounts(
  counts: number,
  interceptCounts: number = TEMPERATURE_INTERCEPT_COUNTS.later,
): number {
  return TEMPERATURE_AT_INTERCEPT_C + (counts - interceptCounts) / TEMPERATURE_COUNTS_PER_K;
}

/** The counts of a chip temperature, not yet whole; what an emulated chip needs. */
export function countsFromTemperatureC(
  temperatureC: number,
  interceptCounts: number = TEMPERATURE_INTERCEPT_COUNTS.later,
): number {
  return interceptCounts + (temperatureC - TEMPERATURE_AT_INTERCEPT_C) * TEMPERATURE_COUNTS_PER_K;
}
