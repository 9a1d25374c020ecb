import { studentTQuantile } from '../numerics/student-t.ts';
import type { Deflection } from './deflection.ts';

/** Two people's readings of one instrument in one state. */
export interface ReadersCompared {
  /** Heel of the second less that of the first, degrees. */
  readonly differenceDeg: number;
  /** Standard error of the difference, degrees. */
  readonly standardErrorDeg: number;
  /** Are they as near as their own scatter and scale let one expect (95 %)? */
  readonly agree: boolean;
}

/**
 * Compares what two readers found, each with the error of their own reading; degrees of freedom by
 * Welch and Satterthwaite (JCGM 100, G.4.1). They read the same swing with the same length, so what
 * is left between them is reading alone.
 */
export function readersCompared(first: Deflection, second: Deflection): ReadersCompared {
  const differenceDeg = second.heelDeg - first.heelDeg;
  const standardErrorDeg = Math.hypot(first.standardErrorDeg, second.standardErrorDeg);
  const share = ({ standardErrorDeg: one, degreesOfFreedom }: Deflection) =>
    one ** 4 / degreesOfFreedom;
  const degreesOfFreedom = standardErrorDeg ** 4 / (share(first) + share(second));
  const most = studentTQuantile(0.975, degreesOfFreedom) * standardErrorDeg;
  return { differenceDeg, standardErrorDeg, agree: Math.abs(differenceDeg) <= most };
}
