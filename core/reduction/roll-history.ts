import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import { studentTQuantile } from '../numerics/student-t.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import { gmOfPeriod } from './roll-coefficient.ts';

const positive = z.number().positive();

/** Amplitudes of two tests differ, and with them the period of a hull that stiffens or softens. Ours. */
const LEAST_CHANGE = 0.01;

/** One roll test of a vessel as it is kept: what was measured, in which condition. */
export const keptRollTest = z.strictObject({
  date: z.iso.date(),
  /** Fuel, water, gear, fish, people aboard, in words: only like conditions may be compared. */
  condition: z.string().min(1).max(300),
  beamM: positive,
  displacementT: positive.nullable(),
  runs: z.number().int().positive(),
  periodS: positive,
  periodUncertaintyS: positive,
  periodDegreesOfFreedom: positive.nullable(),
  /** Null: the report did not say. */
  dampingRatio: z.number().nullable(),
  /** Fluid GM measured by inclining in this same condition; null: not measured. */
  gmFluidM: positive.nullable(),
  gmUncertaintyM: positive.nullable(),
  /** Her own f = T sqrt(GM) / B of that; null without GM. */
  ownCoefficient: positive.nullable(),
  ownCoefficientUncertainty: positive.nullable(),
  ownCoefficientDegreesOfFreedom: positive.nullable(),
});
export type KeptRollTest = z.infer<typeof keptRollTest>;

export const rollHistory = z.strictObject({
  vessel: z.string().min(1).max(64),
  tests: z.array(keptRollTest).min(1).max(200),
});
export type RollHistory = z.infer<typeof rollHistory>;

/** One point of the plot of her periods over the years. */
interface RollHistoryPoint {
  readonly date: string;
  readonly condition: string;
  readonly periodS: number;
  readonly halfWidth95S: number;
  /** Fluid GM by her own coefficient; null while none is known. */
  readonly gmFluidM: number | null;
  /** Was it measured in the condition of the last test? */
  readonly sameCondition: boolean;
}

interface RollOverYears {
  readonly vessel: string;
  readonly points: RollHistoryPoint[];
  /** Last against first test of the last one's condition; null with a single one. */
  readonly change: {
    readonly share: number;
    readonly halfWidth95: number;
    readonly gmShare: number;
  } | null;
  readonly words: string;
}

/** Tests in order of date, and in words what the period has done. Throws `input-contradiction` for another beam. */
export function rollOverYears({ vessel, tests }: RollHistory): RollOverYears {
  const ordered = [...tests].sort((one, other) => one.date.localeCompare(other.date));
  const last = ordered.at(-1)!;
  const other = ordered.find((test) => test.beamM !== last.beamM);
  if (other !== undefined) {
    const found = `${other.beamM} m on ${other.date}, ${last.beamM} m on ${last.date}`;
    throw new Fault('input-contradiction', 'beamM', found);
  }
  const own = ordered.findLast((test) => test.ownCoefficient !== null)?.ownCoefficient ?? null;
  const points = ordered.map((test) => ({
    date: test.date,
    condition: test.condition,
    periodS: test.periodS,
    halfWidth95S: quantileOf(test) * test.periodUncertaintyS,
    gmFluidM: own === null ? null : gmOfPeriod(own, test.beamM, test.periodS),
    sameCondition: test.condition === last.condition,
  }));
  const like = ordered.filter((test) => test.condition === last.condition);
  if (like.length < 2) {
    const words = 'One test in this condition: nothing to compare it with yet.';
    return { vessel, points, change: null, words };
  }
  return { vessel, points, ...changeOf(like[0]!, last) };
}

function quantileOf(test: KeptRollTest): number {
  return studentTQuantile(0.975, test.periodDegreesOfFreedom ?? Number.POSITIVE_INFINITY);
}

function changeOf(
  first: KeptRollTest,
  last: KeptRollTest,
): Pick<RollOverYears, 'change' | 'words'> {
  const ratio = last.periodS / first.periodS;
  const share = ratio - 1;
  const halfWidth95 =
    ratio *
    Math.hypot(
      (quantileOf(first) * first.periodUncertaintyS) / first.periodS,
      (quantileOf(last) * last.periodUncertaintyS) / last.periodS,
    );
  const gmShare = ratio ** -2 - 1;
  const change = { share, halfWidth95, gmShare };
  const figure = (value: number) => `${Math.abs(100 * value).toFixed(1)} %`;
  const since = `since ${first.date}`;
  const seen = `${figure(share)} ± ${figure(halfWidth95)}`;
  if (Math.abs(share) <= Math.max(halfWidth95, LEAST_CHANGE)) {
    const words = `No change of period beyond 1 % is shown ${since}: ${share < 0 ? '-' : '+'}${seen}.`;
    return { change, words };
  }
  const gm = figure(gmShare);
  const words =
    share > 0
      ? `Her roll has lengthened by ${seen} ${since}. With the same weights about her she has ${gm} less GM: look for weight added high, or water aboard, and incline her.`
      : `Her roll has shortened by ${seen} ${since}. With the same weights about her she has ${gm} more GM; check that lines, fenders and the ground left her free.`;
  return { change, words };
}

/** Her own coefficient as a test left it; null where none was measured. */
export function keptCoefficient(test: KeptRollTest): Uncertain | null {
  if (test.ownCoefficient === null || test.ownCoefficientUncertainty === null) return null;
  return {
    value: test.ownCoefficient,
    standardUncertainty: test.ownCoefficientUncertainty,
    degreesOfFreedom: test.ownCoefficientDegreesOfFreedom ?? Number.POSITIVE_INFINITY,
  };
}
