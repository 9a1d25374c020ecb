import type { HeelEstimate } from './estimate.ts';
import type { RollFit } from './fit-roll.ts';
import { tOf95 } from './half-width.ts';
import type { HeelFilter } from './heel-filter.ts';

/**
 * The heel now by a model and what was counted, its variance widened for what is being learned;
 * `missingDeg`: what the day has shown such windows to lack.
 */
export function estimateNow(
  fit: Pick<RollFit, 'variance' | 'widenedVariance' | 'degreesOfFreedom'>,
  filter: Pick<HeelFilter, 'heelDeg' | 'variance'>,
  missingDeg = 0,
): HeelEstimate {
  const ownDeg = Math.sqrt(filter.variance * (fit.widenedVariance / fit.variance));
  const standardErrorDeg = Math.hypot(ownDeg, missingDeg);
  const { degreesOfFreedom } = fit;
  return {
    heelDeg: filter.heelDeg,
    standardErrorDeg,
    degreesOfFreedom,
    halfWidth95Deg: tOf95(degreesOfFreedom) * standardErrorDeg,
  };
}
