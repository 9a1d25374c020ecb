import { uncertainHalfWidth95 } from '../numerics/coverage.ts';
import { type Contribution, uncertainFromContributions } from '../quantity/uncertainty.ts';
import type { Answer, BudgetRow } from './budget.ts';

/** What one more thing to measure would cost on the day. Minutes of everybody and of the crane. */
export interface WorthCosts {
  /** Of one more shift with its reading. */
  readonly shiftMinutes: number;
  /** Of reading one freeboard again. */
  readonly freeboardMinutes: number;
}

/** Our settings: what such a thing takes on a small vessel. */
export const USUAL_COSTS: WorthCosts = { shiftMinutes: 8, freeboardMinutes: 2 };

/** How the angles of the states were read. */
export interface ReadingTime {
  /** Seconds that counted in a state's reading, typically. */
  readonly countedS: number;
  /** Standard error of a state's mean heel that the reading itself claims, as a tangent. */
  readonly readingTangent: number;
}

export type WorthWhat = 'next-shift' | 'minute-each' | 'freeboard-again' | 'freeboards-all-again';

export interface Worth {
  readonly what: WorthWhat;
  readonly minutes: number;
  /** Half the 95 % interval of KG (of GM without KM) with it, in the unit of GM. */
  readonly halfWidth95After: number;
  readonly bought: number;
  readonly boughtAnHour: number;
}

export interface WorthOfMore {
  readonly halfWidth95: number;
  /** Share of the variance that the angles have. */
  readonly anglesShare: number;
  readonly largestCause: string;
  /** Most for its time first. */
  readonly more: readonly Worth[];
  /** Are the angles so small beside the rest that waiting buys nothing, or is nothing worth its time? */
  readonly mayStop: boolean;
  readonly why: 'angles-under-a-third' | 'nothing-worth-its-time' | 'worth-going-on' | 'few-states';
}

/** The angles' own uncertainty against all other causes together, under which waiting ends. Our setting. */
export const ANGLES_UNDER = 1 / 3;
/** Of the half width, an hour of everybody must buy this much to be worth it. Our setting. */
const WORTH_AN_HOUR_SHARE = 0.1;
/** Under so many states the scatter is not known well enough to stop on. Our setting. */
const FEWEST_STATES = 5;

const ANGLES = 'scatter of the states';
const FREEBOARDS = 'freeboards and draughts as read';

/**
 * What to measure again and what it would buy, as half the 95 % interval of KG: one more shift to
 * the largest moment, another minute of each reading, freeboards read again. From the budget as it
 * is; the scatter is taken to stay as it was, and only the part of it that the readings themselves
 * claim falls with time (a minute does not calm the wind).
 */
export function worthOfMore(
  answer: Answer,
  points: number,
  time: ReadingTime | null,
  costs: WorthCosts = USUAL_COSTS,
): WorthOfMore {
  const { budget, solution } = answer;
  const withKg = answer.kg !== null;
  const size = (row: BudgetRow) => (withKg ? row.kg! : row.gm);
  const rows = budget.map(
    (row): Contribution => ({
      cause: row.cause,
      standardUncertainty: size(row),
      degreesOfFreedom: row.degreesOfFreedom,
    }),
  );
  const halfWidth95 = halfWidth(rows);
  const moments = solution.momentsFitted;
  const states = moments.length;
  const more: Worth[] = [];
  const add = (what: WorthWhat, minutes: number, changed: readonly Contribution[]): void => {
    const after = halfWidth(changed);
    const bought = halfWidth95 - after;
    more.push({
      what,
      minutes,
      halfWidth95After: after,
      bought,
      boughtAnHour: (60 * bought) / minutes,
    });
  };
  add('next-shift', costs.shiftMinutes, changedRow(rows, ANGLES, nextShift(moments), 1));
  if (time !== null) {
    const factor = minuteEach(answer, time);
    add('minute-each', states, changedRow(rows, ANGLES, factor, 0));
  }
  if (points > 0 && rows.some((row) => row.cause === FREEBOARDS)) {
    const one = Math.sqrt(1 - 1 / (2 * points));
    add('freeboard-again', costs.freeboardMinutes, changedRow(rows, FREEBOARDS, one, 1));
    const all = costs.freeboardMinutes * points;
    add('freeboards-all-again', all, changedRow(rows, FREEBOARDS, Math.SQRT1_2, points));
  }
  more.sort((left, right) => right.boughtAnHour - left.boughtAnHour);
  return { halfWidth95, more, ...verdict(rows, halfWidth95, more, states) };
}

function verdict(
  rows: readonly Contribution[],
  halfWidth95: number,
  more: readonly Worth[],
  states: number,
): Pick<WorthOfMore, 'anglesShare' | 'largestCause' | 'mayStop' | 'why'> {
  const square = (of: (row: Contribution) => boolean) =>
    rows.filter(of).reduce((sum, row) => sum + row.standardUncertainty ** 2, 0);
  const angles = square((row) => row.cause === ANGLES);
  const rest = square((row) => row.cause !== ANGLES);
  const largest = rows.reduce((most, row) =>
    row.standardUncertainty > most.standardUncertainty ? row : most,
  );
  const shares = { anglesShare: angles / (angles + rest || 1), largestCause: largest.cause };
  if (states < FEWEST_STATES) return { ...shares, mayStop: false, why: 'few-states' };
  if (angles <= ANGLES_UNDER ** 2 * rest) {
    return { ...shares, mayStop: true, why: 'angles-under-a-third' };
  }
  const best = Math.max(0, ...more.map((one) => one.boughtAnHour));
  return best < WORTH_AN_HOUR_SHARE * halfWidth95
    ? { ...shares, mayStop: true, why: 'nothing-worth-its-time' }
    : { ...shares, mayStop: false, why: 'worth-going-on' };
}

function halfWidth(rows: readonly Contribution[]): number {
  return uncertainHalfWidth95(uncertainFromContributions(0, rows));
}

function changedRow(
  rows: readonly Contribution[],
  cause: string,
  factor: number,
  moreFreedom: number,
): Contribution[] {
  return rows.map((row) =>
    row.cause === cause
      ? {
          ...row,
          standardUncertainty: row.standardUncertainty * factor,
          degreesOfFreedom: row.degreesOfFreedom + moreFreedom,
        }
      : row,
  );
}

/** The slope's uncertainty goes with one over the root of the moments' sum of squares about their mean. */
function nextShift(moments: readonly number[]): number {
  const mean = moments.reduce((sum, one) => sum + one, 0) / moments.length;
  const squares = moments.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const farthest = moments.reduce((most, one) =>
    Math.abs(one - mean) > Math.abs(most - mean) ? one : most,
  );
  const added = ((farthest - mean) ** 2 * moments.length) / (moments.length + 1);
  return Math.sqrt(squares / (squares + added));
}

/** The readings' own part of the scatter falls with the time counted, the rest stays. */
function minuteEach(answer: Answer, { countedS, readingTangent }: ReadingTime): number {
  const { stateResiduals, statesDof } = answer.solution.fit;
  const variance = stateResiduals.reduce((sum, one) => sum + one * one, 0) / statesDof;
  if (variance === 0) return 1;
  const own = Math.min(variance, readingTangent ** 2);
  return Math.sqrt((variance - own + (own * countedS) / (countedS + 60)) / variance);
}
