import type { LightshipInput } from '../condition/lightship-input.ts';
import { Fault } from '../fault/fault.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import type { HistoryInput } from './history-input.ts';

/** How a figure of the lightship grew over her tests. */
export interface Growth {
  readonly figure: 'mass' | 'lcg' | 'tcg' | 'vcg';
  /** From the first test to the last, t or m. */
  readonly change: number;
  /** A year, t or m; its uncertainty is null, not known, where a test states none. */
  readonly aYear: { readonly value: number; readonly standardUncertainty: number | null };
  /** More than the tests' own uncertainty by 1.96 times; null: not all of them state one. */
  readonly moreThanChance: boolean | null;
}

const DAY_MS = 86_400_000;
const YEAR_DAYS = 365.25;
/** Two-sided 95 %, tests stating their uncertainty. */
const COVERAGE = 1.96;

export function yearsBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / DAY_MS / YEAR_DAYS;
}

/**
 * The line through the tests over the years, each weighted by its stated uncertainty (alike where
 * one states none). Empty with fewer than two tests.
 */
export function growthOf({ tests }: HistoryInput): Growth[] {
  if (tests.length < 2) return [];
  const years = tests.map(({ on }) => yearsBetween(tests[0]!.on, on));
  return (['mass', 'lcg', 'tcg', 'vcg'] as const).map((figure) => {
    const values = tests.map(({ lightship }) => lightship[figure].value);
    const stated = tests.map(({ lightship }) => lightship[figure].standardUncertainty ?? 0);
    const known = stated.every((one) => one > 0);
    const weights = stated.map((one) => (known ? 1 / one ** 2 : 1));
    const slopes = slopeShares(years, weights);
    const value = slopes.reduce((sum, share, k) => sum + share * values[k]!, 0);
    const error = Math.hypot(...slopes.map((share, k) => share * stated[k]!));
    return {
      figure,
      change: values.at(-1)! - values[0]!,
      aYear: { value, standardUncertainty: known ? error : null },
      moreThanChance: known ? Math.abs(value) > COVERAGE * error : null,
    };
  });
}

/** What one unit of each value adds to the slope of the weighted line. */
function slopeShares(x: readonly number[], weights: readonly number[]): number[] {
  const whole = weights.reduce((sum, one) => sum + one, 0);
  const middle = x.reduce((sum, one, k) => sum + weights[k]! * one, 0) / whole;
  const spread = x.reduce((sum, one, k) => sum + weights[k]! * (one - middle) ** 2, 0);
  return x.map((one, k) => (weights[k]! * (one - middle)) / spread);
}

/** Roll periods of tests in one condition, the last against the first. */
export interface PeriodLengthened {
  readonly condition: string;
  readonly fromS: number;
  readonly toS: number;
  readonly differenceS: Uncertain;
  /** By so much is GM less, the gyration and the beam as they were: 1 less the square of the ratio. */
  readonly gmLostShare: number;
  readonly moreThanChance: boolean;
}

export function periodsOf({ tests }: HistoryInput): PeriodLengthened[] {
  const conditions = [...new Set(tests.flatMap(({ roll }) => (roll ? [roll.condition] : [])))];
  return conditions.flatMap((condition) => {
    const rolled = tests.flatMap(({ roll }) => (roll?.condition === condition ? [roll] : []));
    const [first, last] = [rolled[0], rolled.at(-1)];
    if (rolled.length < 2 || first === undefined || last === undefined) return [];
    const difference = last.periodS - first.periodS;
    const standardUncertainty = Math.hypot(first.standardUncertaintyS, last.standardUncertaintyS);
    return [
      {
        ...{ condition, fromS: first.periodS, toS: last.periodS },
        differenceS: {
          value: difference,
          standardUncertainty,
          degreesOfFreedom: Number.POSITIVE_INFINITY,
        },
        gmLostShare: 1 - (first.periodS / last.periodS) ** 2,
        moreThanChance: Math.abs(difference) > COVERAGE * standardUncertainty,
      },
    ];
  });
}

/** The lightship of the last test with the changes since put on it, and what they add up to. */
export interface ChangedLightship {
  readonly massT: number;
  readonly lcgM: number;
  readonly tcgM: number;
  readonly vcgM: number;
  /** Masses that came, went or moved, all counted as positive, t. */
  readonly aggregateT: number;
}

/** Throws `input-contradiction` where the changes take off all there was, or more. */
export function changedLightship({ tests, changes }: HistoryInput): ChangedLightship {
  const last: LightshipInput = tests.at(-1)!.lightship;
  const sum = { m: last.mass.value, x: 0, y: 0, z: 0 };
  sum.x = sum.m * last.lcg.value;
  sum.y = sum.m * last.tcg.value;
  sum.z = sum.m * last.vcg.value;
  for (const { massT, from, to } of changes) {
    for (const [at, sign] of [
      [from, -1],
      [to, 1],
    ] as const) {
      if (at === null) continue;
      sum.m += sign * massT;
      sum.x += sign * massT * at.xM;
      sum.y += sign * massT * at.yM;
      sum.z += sign * massT * at.zM;
    }
  }
  if (!(sum.m > 0))
    throw new Fault(
      'input-contradiction',
      'history.changes',
      `they leave a lightship of ${sum.m} t of ${last.mass.value} t`,
    );
  return {
    massT: sum.m,
    lcgM: sum.x / sum.m,
    tcgM: sum.y / sum.m,
    vcgM: sum.z / sum.m,
    aggregateT: changes.reduce((total, { massT }) => total + massT, 0),
  };
}
