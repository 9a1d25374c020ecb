import { LEAST_COUNTS, MOST_COUNTS, voltsPerCount } from '#core/part/ads1115.ts';
import type { VoltageElement } from './element.ts';

/**
 * One conversion of an emulated ADS1115: the volts in the middle of the time it took, rounded to
 * a count and stopped at the ends of the register as the chip does. Both entrances of the
 * simulator convert by this function.
 */
export function convertedCounts(
  element: VoltageElement,
  input: number,
  conversion: { startS: number; lastsS: number; pgaField: number },
): number {
  const volts = element.volts(input, conversion.startS + conversion.lastsS / 2);
  const counts = Math.round(volts / voltsPerCount(conversion.pgaField));
  return Math.min(MOST_COUNTS, Math.max(LEAST_COUNTS, counts));
}
