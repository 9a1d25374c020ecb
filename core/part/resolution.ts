import { degreesFromRadians } from '../quantity/angle.ts';
import * as ads1115 from './ads1115.ts';
import { levelMmFromVolts } from './current-loop-level.ts';
import * as iis2iclx from './iis2iclx.ts';

/**
 * Heel that one count of a part stands for near upright, degrees; null for a part whose step is
 * not known. `spanM` is the distance of the legs of a water tube.
 */
export function resolutionDeg(part: string, spanM: number | null): number | null {
  if (part === 'iis2iclx') return degreesFromRadians(Math.asin(iis2iclx.gFromCounts(1)));
  if (part === 'ads1115' && spanM !== null) {
    const stepMm =
      levelMmFromVolts(ads1115.voltsFromCounts(1)) - levelMmFromVolts(ads1115.voltsFromCounts(0));
    return degreesFromRadians(Math.atan(stepMm / (spanM * 1000)));
  }
  return null;
}
