import { Fault } from '../fault/fault.ts';
import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import { checkAllFinite, checkPositive } from '../quantity/check.ts';

export interface Alignment {
  /** The sensing axis swung from the ship's transverse, clockwise seen from above positive. */
  readonly yawDeg: number;
  readonly yawUncertaintyDeg: number;
  /** How much less than the heel it shows, relative: 1 - cos(yaw). */
  readonly heelLostShare: number;
  /** Heel it shows for each degree that the trim changes: sin(yaw). */
  readonly heelPerTrimDeg: number;
}

/** Beyond this the base is set again: the loss is 0.06 % and a trim change shows by 3.5 %. Our setting. */
export const MOST_YAW_DEG = 2;

/**
 * How the base's reference edge stands to the transverse: distances from a transverse frame or
 * bulkhead to the edge near its port and its starboard end, and how far apart those were taken.
 * All mm, distances measured aft from the frame. Faults: `input-range` where the two differ by
 * more than the base is long, `input-not-finite`.
 */
export function alignmentFromDistances(
  portMm: number,
  starboardMm: number,
  apartMm: number,
  distanceUncertaintyMm: number,
): Alignment {
  checkAllFinite([portMm, starboardMm, distanceUncertaintyMm], 'alignment');
  checkPositive(apartMm, 'alignment: apart');
  if (Math.abs(starboardMm - portMm) >= apartMm) {
    throw new Fault(
      'input-range',
      'alignment',
      `${portMm} and ${starboardMm} mm, ${apartMm} apart`,
    );
  }
  const slope = (starboardMm - portMm) / apartMm;
  return alignmentOfYaw(
    degreesFromRadians(Math.atan(slope)),
    degreesFromRadians((Math.SQRT2 * distanceUncertaintyMm) / apartMm / (1 + slope * slope)),
  );
}

/**
 * The same by the instrument's own second axis: while the vessel heels, an axis that should lie
 * fore and aft shows minus sine of the yaw times the heel, once for all her changes of trim, which
 * the moves across the deck do not bring. Pairs of (heel axis, other axis), degrees, both as shown.
 * Faults: `input-too-few` under three pairs, `line-not-determined` where she did not heel.
 */
export function alignmentFromSecondAxis(
  acrossDeg: readonly number[],
  alongDeg: readonly number[],
): Alignment {
  checkAllFinite(acrossDeg, 'heel axis');
  checkAllFinite(alongDeg, 'other axis');
  const count = acrossDeg.length;
  if (count < 3 || alongDeg.length !== count) {
    throw new Fault('input-too-few', 'alignment', `${count} and ${alongDeg.length} readings`);
  }
  const acrossMean = acrossDeg.reduce((sum, one) => sum + one, 0) / count;
  const alongMean = alongDeg.reduce((sum, one) => sum + one, 0) / count;
  let across = 0;
  let both = 0;
  for (let k = 0; k < count; k++) {
    across += (acrossDeg[k]! - acrossMean) ** 2;
    both += (acrossDeg[k]! - acrossMean) * (alongDeg[k]! - alongMean);
  }
  if (across === 0) throw new Fault('line-not-determined', 'alignment', 'she did not heel');
  const slope = both / across;
  let rest = 0;
  for (let k = 0; k < count; k++) {
    rest += (alongDeg[k]! - alongMean - slope * (acrossDeg[k]! - acrossMean)) ** 2;
  }
  const slopeUncertainty = Math.sqrt(rest / (count - 2) / across);
  return alignmentOfYaw(
    degreesFromRadians(Math.atan(-slope)),
    degreesFromRadians(slopeUncertainty / (1 + slope * slope)),
  );
}

/** What a yaw of the base does to heel: shown = heel cos(yaw) + trim change sin(yaw). */
export function alignmentOfYaw(yawDeg: number, yawUncertaintyDeg: number): Alignment {
  const yawRad = radiansFromDegrees(yawDeg);
  return {
    yawDeg,
    yawUncertaintyDeg,
    heelLostShare: 2 * Math.sin(yawRad / 2) ** 2,
    heelPerTrimDeg: Math.sin(yawRad),
  };
}
