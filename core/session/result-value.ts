import { uncertainHalfWidth95 } from '../numerics/coverage.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import type { ResultValue } from './session-result.ts';

/** An uncertain value as plain data: infinite freedom, which JSON cannot hold, becomes null. */
export function resultValue(uncertain: Uncertain): ResultValue {
  return {
    value: uncertain.value,
    standardUncertainty: uncertain.standardUncertainty,
    degreesOfFreedom: finiteOrNull(uncertain.degreesOfFreedom),
    halfWidth95: uncertainHalfWidth95(uncertain),
  };
}

export function finiteOrNull(degreesOfFreedom: number): number | null {
  return degreesOfFreedom === Number.POSITIVE_INFINITY ? null : degreesOfFreedom;
}

export function tangentToDegrees(tangent: Uncertain): Uncertain {
  return {
    value: degreesFromRadians(Math.atan(tangent.value)),
    standardUncertainty: degreesFromRadians(tangent.standardUncertainty) / (1 + tangent.value ** 2),
    degreesOfFreedom: tangent.degreesOfFreedom,
  };
}
