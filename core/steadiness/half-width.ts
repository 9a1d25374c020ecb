import { studentTQuantile } from '../numerics/student-t.ts';

const MOST_KEPT = 64;
const kept = new Map<number, number>();

/**
 * Student's t of a two-sided 95 % interval. Degrees of freedom change only when a model is learned
 * anew, pictures are drawn ten times a second: the last values asked for are kept.
 */
export function tOf95(degreesOfFreedom: number): number {
  let t = kept.get(degreesOfFreedom);
  if (t === undefined) {
    t = studentTQuantile(0.975, degreesOfFreedom);
    if (kept.size >= MOST_KEPT) kept.clear();
    kept.set(degreesOfFreedom, t);
  }
  return t;
}
