import type { Uncertain } from '../quantity/uncertainty.ts';
import { studentTQuantile } from './student-t.ts';

/** Half the width of the interval that covers 95 %, by Student's t (GUM, JCGM 100:2008, G.3). */
export function uncertainHalfWidth95(uncertain: Uncertain): number {
  return studentTQuantile(0.975, uncertain.degreesOfFreedom) * uncertain.standardUncertainty;
}
