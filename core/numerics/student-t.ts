import { Fault } from '../fault/fault.ts';
import { checkRange } from '../quantity/check.ts';
import { incompleteBeta } from './incomplete-beta.ts';
import { incompleteGamma } from './incomplete-gamma.ts';
import { positiveQuantile } from './quantile.ts';

/**
 * Student's t. Degrees of freedom need not be whole; Infinity is the normal distribution.
 * Probability that |t| is larger than this: both tails.
 */
export function studentTBeyond(t: number, degreesOfFreedom: number): number {
  checkDegrees(degreesOfFreedom);
  const square = t * t;
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return incompleteGamma(0.5, square / 2).upper;
  if (square === Number.POSITIVE_INFINITY) return 0;
  const sum = degreesOfFreedom + square;
  return incompleteBeta(degreesOfFreedom / 2, 0.5, degreesOfFreedom / sum, square / sum).lower;
}

/** Probability of a value up to t. */
export function studentTCumulative(t: number, degreesOfFreedom: number): number {
  const beyond = studentTBeyond(t, degreesOfFreedom) / 2;
  return t < 0 ? beyond : 1 - beyond;
}

/**
 * The t that a share `probability` of values stays below, 0 < probability < 1. For the half width
 * of a two-sided 95 % interval ask for 0.975. Example: 0.975 with 6 degrees of freedom is
 * 2.44691185114497.
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  checkRange(probability, Number.MIN_VALUE, 1 - Number.EPSILON / 2, 'probability');
  checkDegrees(degreesOfFreedom);
  if (probability === 0.5) return 0;
  const tail = probability > 0.5 ? 1 - probability : probability;
  const size = positiveQuantile((t) => studentTBeyond(t, degreesOfFreedom) / 2, tail);
  return probability > 0.5 ? size : -size;
}

function checkDegrees(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0)) {
    throw new Fault('input-range', 'degrees of freedom', String(degreesOfFreedom));
  }
}
