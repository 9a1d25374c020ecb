import { degreesFromRadians } from '#core/quantity/angle.ts';
import type { HandReading } from '#core/record/line.ts';
import { restOfExtremes } from '#core/session/rest-of-extremes.ts';

/** Heel of a hand reading, degrees, starboard positive; its own ± is not known from one swing. */
export function handHeelDeg(reading: HandReading): number {
  return degreesFromRadians(Math.atan(restOfExtremes(reading.extremesMm) / reading.lengthMm));
}
