import { Fault } from '../fault/fault.ts';
import { checkRange } from '../quantity/check.ts';
import { incompleteGamma } from './incomplete-gamma.ts';
import { positiveQuantile } from './quantile.ts';

function tails(chiSquared: number, degreesOfFreedom: number): { below: number; beyond: number } {
  if (!(degreesOfFreedom > 0 && degreesOfFreedom < Number.POSITIVE_INFINITY)) {
    throw new Fault('input-range', 'degrees of freedom', String(degreesOfFreedom));
  }
  const { lower, upper } = incompleteGamma(degreesOfFreedom / 2, chiSquared / 2);
  return { below: lower, beyond: upper };
}

/** Probability of a chi-squared up to this. */
export function chiSquaredCumulative(chiSquared: number, degreesOfFreedom: number): number {
  return tails(chiSquared, degreesOfFreedom).below;
}

/** Probability of a chi-squared beyond this: that of so much by chance. */
export function chiSquaredBeyond(chiSquared: number, degreesOfFreedom: number): number {
  return tails(chiSquared, degreesOfFreedom).beyond;
}

/** The chi-squared that a share `probability` of values stays below, 0 < probability < 1. */
export function chiSquaredQuantile(probability: number, degreesOfFreedom: number): number {
  checkRange(probability, Number.MIN_VALUE, 1 - Number.EPSILON / 2, 'probability');
  if (probability > 0.5) {
    return positiveQuantile((x) => tails(x, degreesOfFreedom).beyond, 1 - probability);
  }
  return positiveQuantile((x) => tails(x, degreesOfFreedom).below, probability);
}
