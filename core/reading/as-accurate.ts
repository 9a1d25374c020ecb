import { straightLine } from '../numerics/least-squares.ts';
import { studentTBeyond, studentTQuantile } from '../numerics/student-t.ts';
import { checkAllFinite, checkEqualLength } from '../quantity/check.ts';

export const ACCURACY_ANSWERS = ['shown', 'shown-worse', 'not-shown'] as const;
/** Is an instrument at least as accurate as the pendulum beside it? */
export type AccuracyAnswer = (typeof ACCURACY_ANSWERS)[number];

/** One instrument beside one pendulum, over the states both were read in. */
export interface BesidePendulum {
  readonly states: number;
  /** Variance of the instrument's readings about its line over that of the pendulum's; null: too few states, or no scatter. */
  readonly varianceRatio: number | null;
  /** One-sided 95 % bounds of that ratio. */
  readonly lower95: number | null;
  readonly upper95: number | null;
  /** How much more of a heel it shows: 0.002 is 0.2 % more; one standard uncertainty. */
  readonly slopeDifference: number | null;
  readonly slopeUncertainty: number | null;
  /** Is the difference of the slopes no more than chance (5 %)? */
  readonly slopesAgree: boolean | null;
  readonly answer: AccuracyAnswer;
}

/** Two lines and one correlation take three; a bound with fewer than two left says nothing. */
const FEWEST_STATES = 5;
const ONE_SIDED = 0.95;
const SLOPES_LEVEL = 0.05;

/**
 * Both were read in the same states, so what moves the vessel is common to both and can only hide a
 * difference, never make one. Each is taken about its own line on the moment; the bounds of the
 * ratio of the two variances are those for paired readings (Pitman, Biometrika 31 (1939) 9; Morgan,
 * the same volume 13, from memory). `shown` needs the upper bound at 1 or under it and slopes that agree.
 *
 * Heels in degrees, by state, null where not read; `moments` in any unit. Throws
 * `input-unequal-length`, `input-not-finite`.
 */
export function besidePendulum(
  heelDeg: readonly (number | null)[],
  pendulumDeg: readonly (number | null)[],
  moments: readonly number[],
): BesidePendulum {
  checkEqualLength(heelDeg, moments, 'instrument');
  checkEqualLength(pendulumDeg, moments, 'pendulum');
  checkAllFinite(moments, 'moments');
  const both = moments.flatMap((moment, k) => {
    const [own, other] = [heelDeg[k]!, pendulumDeg[k]!];
    return own === null || other === null ? [] : [{ moment, own, other }];
  });
  const nothing = { states: both.length, ...NOT_TOLD };
  const first = both[0]?.moment;
  if (both.length < FEWEST_STATES || both.every((one) => one.moment === first)) return nothing;
  const x = both.map((one) => one.moment);
  const own = straightLine(
    x,
    both.map((one) => one.own),
  );
  const other = straightLine(
    x,
    both.map((one) => one.other),
  );
  const difference = straightLine(
    x,
    both.map((one) => one.own - one.other),
  );
  const sum = straightLine(
    x,
    both.map((one) => one.own + one.other),
  );
  const variances = [own, other, difference, sum].map((line) => line.residualDeviation ** 2);
  const [ofOwn = 0, ofOther = 0, ofDifference = 0, ofSum = 0] = variances;
  if (ofOwn === 0 || ofOther === 0 || ofDifference === 0 || other.slope === 0) return nothing;
  const slopeUncertainty = difference.slopeUncertainty / Math.abs(other.slope);
  const t = difference.slope / difference.slopeUncertainty;
  const slopesAgree = studentTBeyond(t, both.length - 2) > SLOPES_LEVEL;
  const bounds = boundsOf(ofOwn, ofOther, (ofSum - ofDifference) / 4, both.length - 3);
  return {
    states: both.length,
    ...bounds,
    slopeDifference: difference.slope / other.slope,
    slopeUncertainty,
    slopesAgree,
    answer:
      bounds.lower95 > 1
        ? 'shown-worse'
        : bounds.upper95 <= 1 && slopesAgree
          ? 'shown'
          : 'not-shown',
  };
}

const NOT_TOLD = {
  varianceRatio: null,
  lower95: null,
  upper95: null,
  slopeDifference: null,
  slopeUncertainty: null,
  slopesAgree: null,
  answer: 'not-shown',
} as const;

function boundsOf(ofOwn: number, ofOther: number, common: number, degreesOfFreedom: number) {
  const varianceRatio = ofOwn / ofOther;
  const together = common ** 2 / (ofOwn * ofOther);
  const t = studentTQuantile(ONE_SIDED, degreesOfFreedom);
  const wide = 1 + (2 * (1 - together) * t ** 2) / degreesOfFreedom;
  const root = Math.sqrt(wide ** 2 - 1);
  return {
    varianceRatio,
    lower95: varianceRatio * (wide - root),
    upper95: varianceRatio * (wide + root),
  };
}

/** Against several pendulums: shown only beside each of them, worse when beside any. */
export function answerOfAll(answers: readonly AccuracyAnswer[]): AccuracyAnswer {
  if (answers.includes('shown-worse')) return 'shown-worse';
  return answers.length > 0 && answers.every((one) => one === 'shown') ? 'shown' : 'not-shown';
}
