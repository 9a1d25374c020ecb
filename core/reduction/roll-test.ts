import { plainDegreesOfFreedom } from '../numerics/coverage.ts';
import { studentTQuantile } from '../numerics/student-t.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import {
  COEFFICIENT_SCATTER,
  coefficientByName,
  ownCoefficient,
  rollC,
} from './roll-coefficient.ts';
import { gmByRoll, rollBesideInclining } from './roll-gm.ts';
import {
  type KeptRollTest,
  keptCoefficient,
  type RollHistory,
  rollOverYears,
} from './roll-history.ts';
import type { RollOutput } from './roll-output.ts';
import { type RollPeriod, rollPeriodOf } from './roll-period.ts';
import type { RollRun } from './roll-run.ts';
import { plainPeriod, plainRun } from './roll-runs.ts';

/** What is known of the vessel beside the record. Metres and tonnes; null: not given. */
export interface RolledVessel {
  readonly beamM: number | null;
  /** Both together give GM by C. */
  readonly draughtM: number | null;
  readonly lengthM: number | null;
  /** A row of the table by name. */
  readonly coefficient: string | null;
  /** Fluid GM by inclining, in the condition of this test. */
  readonly inclinedGmM: Uncertain | null;
  readonly displacementT: number | null;
  readonly date: string | null;
  readonly condition: string | null;
  /** Her earlier tests: her own coefficient comes from the newest that has one. */
  readonly history: RollHistory | null;
}

interface RolledInstrument {
  readonly instrument: string;
  readonly samples: number;
  readonly missing: number;
  readonly late: number;
  readonly runs: readonly RollRun[];
}

/** The whole answer of a roll test from the runs of its instruments. Throws `input-range`, `input-contradiction`. */
export function rollTest(
  instruments: readonly RolledInstrument[],
  vessel: RolledVessel,
): RollOutput {
  const periods = instruments.map(({ runs }) => rollPeriodOf(runs));
  const used = bestOf(periods);
  const period = used === null ? null : periods[used]!;
  const kept = period === null ? null : toKeep(period, vessel);
  const tests = [...(vessel.history?.tests ?? []), ...(kept === null ? [] : [kept])];
  return {
    instruments: instruments.map(({ instrument, samples, missing, late, runs }, k) => ({
      instrument,
      samples,
      missing,
      late,
      runs: runs.map(plainRun),
      period: periods[k] == null ? null : plainPeriod(periods[k]),
    })),
    used: used === null ? null : instruments[used]!.instrument,
    period: period === null ? null : plainPeriod(period),
    gm: period === null ? [] : gmsOf(period, vessel),
    kept,
    years: vessel.history === null ? null : rollOverYears({ vessel: vessel.history.vessel, tests }),
  };
}

/** Most runs, then the smallest uncertainty; the roll is common to all, so they are not averaged. */
function bestOf(periods: readonly (RollPeriod | null)[]): number | null {
  let best: number | null = null;
  periods.forEach((period, k) => {
    if (period === null) return;
    const now = best === null ? null : periods[best]!;
    const better =
      now === null ||
      period.runs > now.runs ||
      (period.runs === now.runs &&
        period.periodS.standardUncertainty < now.periodS.standardUncertainty);
    if (better) best = k;
  });
  return best;
}

function gmsOf({ periodS }: RollPeriod, vessel: RolledVessel): RollOutput['gm'] {
  const { beamM, draughtM, lengthM, inclinedGmM } = vessel;
  if (beamM === null) return [];
  const answers: ReturnType<typeof gmByRoll>[] = [];
  if (vessel.coefficient !== null) {
    const row = coefficientByName(vessel.coefficient);
    const source = `${row.condition}: ${row.source}; scatter of f as TP 2072 gives it`;
    const coefficient = { f: row.f, fHalfWidth: COEFFICIENT_SCATTER, source };
    answers.push(gmByRoll('table', coefficient, periodS, beamM));
  }
  if (draughtM !== null && lengthM !== null) {
    const source = 'RD 543/2007 annex II 8: f = 2 C; no scatter is stated';
    const coefficient = { f: 2 * rollC(beamM, draughtM, lengthM), fHalfWidth: null, source };
    answers.push(gmByRoll('c', coefficient, periodS, beamM));
  }
  const earlier = vessel.history?.tests.findLast((test) => test.ownCoefficient !== null);
  const own = earlier === undefined ? null : keptCoefficient(earlier);
  if (earlier !== undefined && own !== null) {
    const fHalfWidth = studentTQuantile(0.975, own.degreesOfFreedom) * own.standardUncertainty;
    const source = `her own, measured ${earlier.date}: ${earlier.condition}`;
    answers.push(gmByRoll('own', { f: own.value, fHalfWidth, source }, periodS, beamM));
  }
  return answers.map((answer) => ({
    ...answer,
    beside: inclinedGmM === null ? null : rollBesideInclining(answer, inclinedGmM),
  }));
}

function toKeep(period: RollPeriod, vessel: RolledVessel): KeptRollTest | null {
  const { beamM, date, condition, inclinedGmM } = vessel;
  if (beamM === null || date === null || condition === null) return null;
  const own = inclinedGmM === null ? null : ownCoefficient(period.periodS, inclinedGmM, beamM);
  return {
    date,
    condition,
    beamM,
    displacementT: vessel.displacementT,
    runs: period.runs,
    periodS: period.periodS.value,
    periodUncertaintyS: period.periodS.standardUncertainty,
    periodDegreesOfFreedom: plainDegreesOfFreedom(period.periodS.degreesOfFreedom),
    dampingRatio: period.dampingRatio.value,
    gmFluidM: inclinedGmM?.value ?? null,
    gmUncertaintyM: inclinedGmM?.standardUncertainty ?? null,
    ownCoefficient: own?.value ?? null,
    ownCoefficientUncertainty: own?.standardUncertainty ?? null,
    ownCoefficientDegreesOfFreedom:
      own === null ? null : plainDegreesOfFreedom(own.degreesOfFreedom),
  };
}
