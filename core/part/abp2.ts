/**
 * Honeywell ABP2, gauge pressure sensor on I2C, 24 bit. Source: the frame and transfer function A
 * as in the Linux iio driver mprls0025pa and its ABP2 extension; temperature *from memory* of the
 * sheet. The range is that of the order code and has to be said (060MG: 0 to 6000 Pa).
 */

/** Full scale of the 24 bits, of pressure and temperature alike. */
const FULL_COUNTS = 2 ** 24;
export const MOST_COUNTS = FULL_COUNTS - 1;

/** Transfer function A: the range lies between 10 % and 90 % of full scale. */
export const COUNTS_AT_LEAST = 1_677_722;
export const COUNTS_AT_MOST = 15_099_494;

/** T = counts 200 / 2^24 - 50, degC (*from memory*). */
const TEMPERATURE_SPAN_K = 200;
const TEMPERATURE_AT_ZERO_C = -50;

/** A gauge range: pressure at 10 % and at 90 % of the counts, pascals. */
export type PressureRangePa = readonly [least: number, most: number];

/** Pressure over the air, Pa. Linear beyond the range; not clipped. */
export function pressurePaFromCounts(counts: number, [least, most]: PressureRangePa): number {
  const share = (counts - COUNTS_AT_LEAST) / (COUNTS_AT_MOST - COUNTS_AT_LEAST);
  return least + share * (most - least);
}

/** Counts of a pressure, not yet whole; what an emulated chip needs. */
export function countsFromPressurePa(pressurePa: number, [least, most]: PressureRangePa): number {
  const share = (pressurePa - least) / (most - least);
  return COUNTS_AT_LEAST + share * (COUNTS_AT_MOST - COUNTS_AT_LEAST);
}

/** Temperature of the sensor, degC. */
export function temperatureCFromCounts(counts: number): number {
  return TEMPERATURE_AT_ZERO_C + (counts * TEMPERATURE_SPAN_K) / FULL_COUNTS;
}

/** The counts of a temperature, not yet whole. */
export function countsFromTemperatureC(temperatureC: number): number {
  return ((temperatureC - TEMPERATURE_AT_ZERO_C) * FULL_COUNTS) / TEMPERATURE_SPAN_K;
}
