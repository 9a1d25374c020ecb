import type { HeelEstimate } from './estimate.ts';
import { tOf95 } from './half-width.ts';

/** One instrument's heel, and the part of its squared standard error that is its noise alone. */
export interface Part {
  readonly instrument: string;
  readonly estimate: HeelEstimate;
  readonly ownVariance: number;
}

/**
 * The heel by all instruments together: the plain mean of theirs, each cleared of the constant
 * by which it differs from the others (`zeroDeg`, as learned; unknown is 0), so that one coming or
 * going does not move it. Roll and wind are the vessel's and common to all: their part of the
 * standard error is averaged as it is, only each instrument's own noise shrinks by joining.
 * Degrees of freedom are the fewest of all, since they come from the same roll.
 */
export function joinedEstimate(
  parts: readonly Part[],
  zeroDeg: ReadonlyMap<string, number>,
): HeelEstimate | null {
  if (parts.length === 0) return null;
  const count = parts.length;
  let heel = 0;
  let common = 0;
  let own = 0;
  for (const { instrument, estimate, ownVariance } of parts) {
    heel += (estimate.heelDeg - (zeroDeg.get(instrument) ?? 0)) / count;
    common += Math.sqrt(Math.max(estimate.standardErrorDeg ** 2 - ownVariance, 0)) / count;
    own += ownVariance / count ** 2;
  }
  const degreesOfFreedom = Math.min(...parts.map((part) => part.estimate.degreesOfFreedom));
  const standardErrorDeg = Math.hypot(common, Math.sqrt(own));
  return {
    heelDeg: heel,
    standardErrorDeg,
    degreesOfFreedom,
    halfWidth95Deg: tOf95(degreesOfFreedom) * standardErrorDeg,
  };
}
