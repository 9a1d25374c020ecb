import { voltsFromCounts } from './ads1115.ts';

/**
 * NXP MPX5010 family, analog gauge pressure sensor 0 to 10 kPa, read by an ADS1115 together with
 * its own supply, to which its output is proportional. Source: sensitivity 450 mV/kPa and 0.2 to
 * 4.7 V at 5 V of the data sheet; the transfer function in this form *from memory*.
 */

/** PGA field the program sets: +-6.144 V, 187.5 microvolts a count, so that 5 V fits. */
export const PGA_FIELD = 0;

/** Output over supply: 0.04 at no pressure, and 0.09 more for each kilopascal. */
const RATIO_AT_ZERO = 0.04;
const RATIO_PER_PA = 0.09e-3;

/** Supply it is specified for, volts (*from memory*). */
export const LEAST_SUPPLY_V = 4.75;
export const MOST_SUPPLY_V = 5.25;

/**
 * Output over supply that a sound sensor does not leave: the nominal 0.04 to 0.94 and its 5 % of
 * span either way. Our setting; a broken wire reads nearly 0.
 */
export const LEAST_SOUND_RATIO = 0.005;
export const MOST_SOUND_RATIO = 0.985;

/** Output over supply from the counts of both; means may be given. */
export function ratioFromCounts(counts: number, supplyCounts: number): number {
  return counts / supplyCounts;
}

/** Pressure over the air, Pa. Not clipped. */
export function pressurePaFromRatio(ratio: number): number {
  return (ratio - RATIO_AT_ZERO) / RATIO_PER_PA;
}

/** Whether supply and output are those of a sound sensor. */
export function isSound(counts: number, supplyCounts: number): boolean {
  const supplyV = voltsFromCounts(supplyCounts, PGA_FIELD);
  if (supplyV < LEAST_SUPPLY_V || supplyV > MOST_SUPPLY_V) return false;
  const ratio = ratioFromCounts(counts, supplyCounts);
  return ratio >= LEAST_SOUND_RATIO && ratio <= MOST_SOUND_RATIO;
}

/** Output, volts, at a pressure and a supply: what an emulated sensor needs. */
export function voltsFromPressurePa(pressurePa: number, supplyV: number): number {
  return supplyV * (RATIO_AT_ZERO + RATIO_PER_PA * pressurePa);
}
