import { Fault, type FaultReport } from '../fault/fault.ts';
import { reduceTest } from '../reduction/reduce-test.ts';
import type { ReductionOutput } from '../reduction/reduction-output.ts';
import { hullAfloatOfText } from './hull-of-text.ts';
import type { SessionState } from './session.ts';
import { testOfSession } from './test-of-session.ts';
import { enteredHull } from './told-survey.ts';

/** What the day comes to by the desk's own reduction, as plain data. */
export interface DayReduction {
  /** Lines the record had. */
  readonly lines: number;
  /** Displacement and KM come from the hull as she floats; else they are as stated beforehand. */
  readonly byHull: boolean;
  readonly reduction: ReductionOutput | null;
  /** Why there is none. */
  readonly refused: FaultReport | null;
}

/**
 * The three answers, float, lightship, budget and what to measure again, from a recorded day. A pure
 * function of the session, some seconds long with a hull: for a worker. Never throws for what a day
 * may bring: why there is no answer stands in `refused`.
 */
export function dayReduction(session: SessionState): DayReduction {
  const { lines } = session;
  let byHull = false;
  try {
    const test = testOfSession(session);
    byHull = test.hull !== undefined;
    const entered = enteredHull(session);
    const hull =
      test.waterline === undefined || entered === null
        ? null
        : hullAfloatOfText(entered.hull, test.waterline.lengthM);
    return { lines, byHull, reduction: reduceTest(test, hull), refused: null };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { lines, byHull, reduction: null, refused: error.report };
  }
}
