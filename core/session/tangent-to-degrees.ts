import { degreesFromRadians } from '../quantity/angle.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';

/** A tangent as its angle; the uncertainty by d(angle) = d(tangent) / (1 + tangent squared). */
export function tangentToDegrees(tangent: Uncertain): Uncertain {
  return {
    value: degreesFromRadians(Math.atan(tangent.value)),
    standardUncertainty: degreesFromRadians(tangent.standardUncertainty) / (1 + tangent.value ** 2),
    degreesOfFreedom: tangent.degreesOfFreedom,
  };
}
