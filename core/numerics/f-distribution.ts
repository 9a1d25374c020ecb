import { Fault } from '../fault/fault.ts';
import { checkRange } from '../quantity/check.ts';
import { incompleteBeta } from './incomplete-beta.ts';
import { positiveQuantile } from './quantile.ts';

/** Both tails of Fisher's F with (upper, lower) degrees of freedom, finite and above zero. */
function tails(f: number, upperDof: number, lowerDof: number): { below: number; beyond: number } {
  if (!(upperDof > 0 && lowerDof > 0 && upperDof + lowerDof < Number.POSITIVE_INFINITY)) {
    throw new Fault('input-range', 'degrees of freedom', `${upperDof}, ${lowerDof}`);
  }
  if (f <= 0) return { below: 0, beyond: 1 };
  if (f === Number.POSITIVE_INFINITY) return { below: 1, beyond: 0 };
  const top = upperDof * f;
  const sum = top + lowerDof;
  const { lower, upper } = incompleteBeta(upperDof / 2, lowerDof / 2, top / sum, lowerDof / sum);
  return { below: lower, beyond: upper };
}

/** Probability of an F up to this. */
export function fCumulative(f: number, upperDof: number, lowerDof: number): number {
  return tails(f, upperDof, lowerDof).below;
}

/** Probability of an F beyond this: that of so much by chance. */
export function fBeyond(f: number, upperDof: number, lowerDof: number): number {
  return tails(f, upperDof, lowerDof).beyond;
}

/** The F that a share `probability` of values stays below, 0 < probability < 1. */
export function fQuantile(probability: number, upperDof: number, lowerDof: number): number {
  checkRange(probability, Number.MIN_VALUE, 1 - Number.EPSILON / 2, 'probability');
  if (probability > 0.5) {
    return positiveQuantile((f) => tails(f, upperDof, lowerDof).beyond, 1 - probability);
  }
  return positiveQuantile((f) => tails(f, upperDof, lowerDof).below, probability);
}
