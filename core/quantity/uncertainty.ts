import { Fault } from '../fault/fault.ts';

/**
 * A value with one standard uncertainty, in the unit of the value. `degreesOfFreedom` is
 * Infinity where the uncertainty does not come from a count of readings.
 */
export interface Uncertain {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/** One independent cause: the standard uncertainty it alone gives to the result. */
export interface Contribution {
  readonly cause: string;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/** Root of the sum of squares: independent contributions (GUM, JCGM 100:2008, 5.1.2). */
export function contributionsTogether(contributions: readonly Contribution[]): number {
  return Math.hypot(...contributions.map((one) => one.standardUncertainty));
}

/**
 * Effective degrees of freedom of a combined uncertainty by Welch and Satterthwaite (GUM,
 * JCGM 100:2008, G.4.1). Not cut to a whole number: Student's t takes any. Infinity when no
 * contribution comes from a limited count; a fault for none at all.
 */
export function contributionsDegreesOfFreedom(contributions: readonly Contribution[]): number {
  if (contributions.length === 0) {
    throw new Fault('input-too-few', 'contributions', 'no contribution to the uncertainty');
  }
  const together = contributionsTogether(contributions);
  if (together === 0) return Number.POSITIVE_INFINITY;
  let sum = 0;
  for (const { standardUncertainty, degreesOfFreedom } of contributions) {
    sum += (standardUncertainty / together) ** 4 / degreesOfFreedom;
  }
  return sum === 0 ? Number.POSITIVE_INFINITY : 1 / sum;
}

/** A value with all its independent contributions combined. */
export function uncertainFromContributions(
  value: number,
  contributions: readonly Contribution[],
): Uncertain {
  return {
    value,
    standardUncertainty: contributionsTogether(contributions),
    degreesOfFreedom: contributionsDegreesOfFreedom(contributions),
  };
}
