import type { Uncertain } from '../quantity/uncertainty.ts';
import { studentTQuantile } from './student-t.ts';

/** Half the width of the interval that covers 95 %, by Student's t (GUM, JCGM 100:2008, G.3). */
export function uncertainHalfWidth95(uncertain: Uncertain): number {
  return studentTQuantile(0.975, uncertain.degreesOfFreedom) * uncertain.standardUncertainty;
}

/** An uncertain value as plain data with its interval. */
export interface PlainUncertain {
  readonly value: number;
  readonly standardUncertainty: number;
  /** Null: not limited by a count of readings, the infinity that JSON cannot hold. */
  readonly degreesOfFreedom: number | null;
  readonly halfWidth95: number;
}

export function plainUncertain(uncertain: Uncertain): PlainUncertain {
  return {
    value: uncertain.value,
    standardUncertainty: uncertain.standardUncertainty,
    degreesOfFreedom: plainDegreesOfFreedom(uncertain.degreesOfFreedom),
    halfWidth95: uncertainHalfWidth95(uncertain),
  };
}

export function plainDegreesOfFreedom(degreesOfFreedom: number): number | null {
  return degreesOfFreedom === Number.POSITIVE_INFINITY ? null : degreesOfFreedom;
}
