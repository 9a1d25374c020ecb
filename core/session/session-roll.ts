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
import type { RollPeriodOutput } from '../reduction/roll-output.ts';
import { RUNS_ASKED, rollPeriodOf } from '../reduction/roll-period.ts';
import type { RollRun } from '../reduction/roll-run.ts';
import { plainPeriod } from '../reduction/roll-runs.ts';
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
  /** Her own f = T sqrt(GM) / B as inclined today, to be kept for later checks; null without both. */
  readonly own: PlainUncertain | null;
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
  };
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
