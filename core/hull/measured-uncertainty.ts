import { createRandom } from '../numerics/random.ts';
import { checkPositive } from '../quantity/check.ts';
import type { Contribution } from '../quantity/uncertainty.ts';
import { hydrostaticsAt } from './hydrostatics.ts';
import { type HullParts, hullFromOffsets } from './make-hull.ts';
import { hullFromMeasuredPoints } from './measured-points.ts';
import type { MeasuredPoint } from './measured-section.ts';
import { checkedOffsets } from './offsets.ts';
import type { Waterline } from './waterline.ts';

/** What errors of measured points do to displacement and KM at one waterline. */
export interface HullUncertainty {
  readonly displacementT: Contribution;
  readonly kmM: Contribution;
  /** Of the two: a hull measured too full has another KM. */
  readonly correlation: number;
}

/** A spread from so many hulls is good to a tenth. */
const DRAWS = 60;

/**
 * Errors of single points carried into displacement and KM: the hull is made again from points moved
 * by their standard uncertainty (from the fairness, or larger), many times, by the very same way. What
 * a tape or a wrong baseline does to all points together is not in here: spot checks tell that
 * (`spot-check.ts`). Throws what a hull so moved is refused with: its points are then too coarse.
 */
export function measuredHullUncertainty(
  points: readonly MeasuredPoint[],
  parts: HullParts,
  waterline: Waterline,
  densityTM3: number,
  pointM: number,
): HullUncertainty {
  checkPositive(pointM, 'uncertainty of a point, m');
  const chance = createRandom(1, 'measured again');
  const draws = Array.from({ length: DRAWS }, () => {
    const moved = points.map((point) => ({
      ...point,
      // A point of the keel is on the centre plane by what it is.
      yM: point.yM === 0 ? 0 : point.yM + chance.normal(pointM),
      zM: point.zM + chance.normal(pointM),
    }));
    const { stations } = hullFromMeasuredPoints(moved);
    const hull = hullFromOffsets(checkedOffsets(stations, 'measured points'), parts);
    return hydrostaticsAt(hull, waterline, densityTM3);
  });
  return {
    displacementT: spread(draws.map((one) => one.displacementT)),
    kmM: spread(draws.map((one) => one.kmTransverseM)),
    correlation: correlationOf(
      draws.map((one) => one.displacementT),
      draws.map((one) => one.kmTransverseM),
    ),
  };
}

function correlationOf(x: readonly number[], y: readonly number[]): number {
  const mean = (values: readonly number[]) =>
    values.reduce((sum, one) => sum + one, 0) / values.length;
  const [xMean, yMean] = [mean(x), mean(y)];
  const cross = (a: readonly number[], aMean: number, b: readonly number[], bMean: number) =>
    a.reduce((sum, one, k) => sum + (one - aMean) * (b[k]! - bMean), 0);
  const scale = Math.sqrt(cross(x, xMean, x, xMean) * cross(y, yMean, y, yMean));
  return scale === 0 ? 0 : Math.max(-1, Math.min(1, cross(x, xMean, y, yMean) / scale));
}

function spread(values: readonly number[]): Contribution {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  const square = values.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const degreesOfFreedom = values.length - 1;
  return {
    cause: 'points measured off the hull',
    standardUncertainty: Math.sqrt(square / degreesOfFreedom),
    degreesOfFreedom,
  };
}
