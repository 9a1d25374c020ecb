import { studentTQuantile } from '#core/numerics/student-t.ts';

const MOST_KEPT = 500;
/** A screen asks for the same few degrees of freedom many times a second. */
const kept = new Map<number, number>();

/** Half the width of the 95 % interval by Student's t. */
export function halfWidth95(standardError: number, degreesOfFreedom: number): number {
  let factor = kept.get(degreesOfFreedom);
  if (factor === undefined) {
    factor = studentTQuantile(0.975, degreesOfFreedom);
    if (kept.size >= MOST_KEPT) kept.clear();
    kept.set(degreesOfFreedom, factor);
  }
  return factor * standardError;
}
