import { degreesFromRadians } from '../quantity/angle.ts';
import * as abp2 from './abp2.ts';
import * as ads1115 from './ads1115.ts';
import * as adxl355 from './adxl355.ts';
import type { AsBuilt } from './as-built.ts';
import { levelMmFromVolts } from './current-loop-level.ts';
import * as iis2iclx from './iis2iclx.ts';
import * as lsm6dso from './lsm6dso.ts';
import * as mpx5010 from './mpx5010.ts';
import { heightMmOfPressure } from './water-column.ts';

/** Step of one count of an inclinometer, g, at the range the program sets. */
const STEP_G: Readonly<Record<string, number>> = {
  iis2iclx: iis2iclx.gFromCounts(1),
  adxl355: adxl355.gFromCounts(1),
  lsm6dso: lsm6dso.gFromCounts(1),
};

/** The supply a ratiometric sensor's step is stated at, volts. */
const NOMINAL_SUPPLY_V = 5;

/**
 * Heel that one count of a part stands for near upright, degrees; null for a part whose step is
 * not known. `spanM` is the distance of the legs of a water tube, `asBuilt` what the part's own
 * order code says.
 */
export function resolutionDeg(
  part: string,
  spanM: number | null,
  asBuilt?: AsBuilt,
): number | null {
  const stepG = Object.hasOwn(STEP_G, part) ? STEP_G[part] : undefined;
  if (stepG !== undefined) return degreesFromRadians(Math.asin(stepG));
  const stepMm = levelStepMm(part, asBuilt);
  if (stepMm === null || spanM === null) return null;
  return degreesFromRadians(Math.atan(stepMm / (spanM * 1000)));
}

function levelStepMm(part: string, asBuilt: AsBuilt | undefined): number | null {
  if (part === 'ads1115') {
    return (
      levelMmFromVolts(ads1115.voltsFromCounts(1)) - levelMmFromVolts(ads1115.voltsFromCounts(0))
    );
  }
  if (part === 'mpx5010') {
    const ratio = ads1115.voltsFromCounts(1, mpx5010.PGA_FIELD) / NOMINAL_SUPPLY_V;
    const stepPa = mpx5010.pressurePaFromRatio(ratio) - mpx5010.pressurePaFromRatio(0);
    return heightMmOfPressure(stepPa, asBuilt?.liquidKgM3);
  }
  const range = asBuilt?.pressureRangePa;
  if (part !== 'abp2' || range === undefined) return null;
  const stepPa = abp2.pressurePaFromCounts(1, range) - abp2.pressurePaFromCounts(0, range);
  return heightMmOfPressure(stepPa, asBuilt?.liquidKgM3);
}
