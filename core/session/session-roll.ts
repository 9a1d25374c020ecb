import { Fault, type FaultReport } from '../fault/fault.ts';
import { type PlainUncertain, plainUncertain } from '../numerics/coverage.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import type { RollRunLine } from '../record/roll-line.ts';
import {
  COEFFICIENT_SCATTER,
  ownCoefficient,
  ROLL_COEFFICIENTS,
} from '../reduction/roll-coefficient.ts';
import {
  type GmByRoll,
  gmByRoll,
  type RollBeside,
  rollBesideInclining,
} from '../reduction/roll-gm.ts';
import type { RollOutput, RollPeriodOutput } from '../reduction/roll-output.ts';
import { RUNS_ASKED, rollPeriodOf } from '../reduction/roll-period.ts';
import type { RollRun } from '../reduction/roll-run.ts';
import { plainPeriod } from '../reduction/roll-runs.ts';
import { rollTest } from '../reduction/roll-test.ts';
import type { SessionState } from './session.ts';

/** The roll test of the day so far, for screens and reports. */
export interface SessionRoll {
  readonly runsAsked: number;
  /** Null while no run of free roll stands. */
  readonly period: RollPeriodOutput | null;
  /** GM by every row of the table, in its order: which of them fits her is the architect's to say. */
  readonly byTable: readonly {
    readonly condition: string;
    readonly gm: GmByRoll;
    /** Null while no GM is measured by inclining. */
    readonly beside: RollBeside | null;
  }[];
  /** GM by C, and by her own f of an earlier test, where the day knows draught or such a test. */
  readonly byOthers: RollOutput['gm'];
  /** Her own f = T sqrt(GM) / B as inclined today, to be kept for later checks; null without both. */
  readonly own: PlainUncertain | null;
  /** What to keep of today's test; null until its condition is said. */
  readonly kept: RollOutput['kept'];
  /** Today's test beside the earlier ones; null without any. */
  readonly years: RollOutput['years'];
  /** Why the earlier tests could not be set beside today's. */
  readonly refused: FaultReport | null;
}

/** A pure function of the session and the GM that its inclining gives. */
export function rollOfSession(session: SessionState, gmFluidM: PlainUncertain | null): SessionRoll {
  const runs = session.rollRuns
    .filter((run) => run.refused === null)
    .map(({ rolled }) => runOf(rolled.run));
  const period = rollPeriodOf(runs);
  const beamM = session.test?.particulars.beamM ?? null;
  const inclined = gmFluidM === null ? null : uncertain(gmFluidM);
  return {
    runsAsked: RUNS_ASKED,
    period: period === null ? null : plainPeriod(period),
    byTable:
      period === null || beamM === null
        ? []
        : ROLL_COEFFICIENTS.map(({ condition, f, source }) => {
            const coefficient = { f, fHalfWidth: COEFFICIENT_SCATTER, source };
            const gm = gmByRoll('table', coefficient, period.periodS, beamM);
            const beside = inclined === null ? null : rollBesideInclining(gm, inclined);
            return { condition, gm, beside };
          }),
    own:
      period === null || beamM === null || inclined === null || !(inclined.value > 0)
        ? null
        : plainUncertain(ownCoefficient(period.periodS, inclined, beamM)),
    ...overYears(session, runs, inclined),
  };
}

/** GM by C and by her own coefficient, what to keep, and the plot over the years. */
function overYears(
  session: SessionState,
  runs: readonly RollRun[],
  inclined: Uncertain | null,
): Pick<SessionRoll, 'byOthers' | 'kept' | 'years' | 'refused'> {
  const nothing = { byOthers: [], kept: null, years: null, refused: null };
  const { test, testOpened, rollCondition } = session;
  if (test === null || testOpened === null || rollCondition === null) return nothing;
  const { condition, draughtM, earlier } = rollCondition.told;
  const { beamM, lengthM, displacementT } = test.particulars;
  try {
    const { gm, kept, years } = rollTest(
      [{ instrument: 'the day', samples: 0, missing: 0, late: 0, runs }],
      {
        ...{ beamM, draughtM, lengthM, displacementT, condition, coefficient: null },
        date: testOpened.wall.slice(0, 'YYYY-MM-DD'.length),
        inclinedGmM: inclined !== null && inclined.value > 0 ? inclined : null,
        history: earlier.length === 0 ? null : { vessel: test.vessel, tests: earlier },
      },
    );
    return { byOthers: gm, kept, years, refused: null };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { ...nothing, refused: error.report };
  }
}

function uncertain({ value, standardUncertainty, degreesOfFreedom }: PlainUncertain): Uncertain {
  return {
    value,
    standardUncertainty,
    degreesOfFreedom: degreesOfFreedom ?? Number.POSITIVE_INFINITY,
  };
}

function runOf(run: RollRunLine['run']): RollRun {
  const { froude, linear } = run;
  return {
    ...run,
    periodS: uncertain(run.periodS),
    dampingRatio: uncertain(run.dampingRatio),
    offsetDeg: uncertain(run.offsetDeg),
    linear: {
      periodS: uncertain(linear.periodS),
      dampingRatio: uncertain(linear.dampingRatio),
    },
    froude: froude && {
      a: uncertain(froude.a),
      bPerDeg: uncertain(froude.bPerDeg),
      shown: froude.shown,
    },
  };
}
