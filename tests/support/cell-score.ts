import { studentTQuantile } from '#core/numerics/student-t.ts';
import { fitRoll, type RollFit } from '#core/steadiness/fit-roll.ts';
import { blockMeans, blocksWithRinging } from '#core/steadiness/heel-blocks.ts';
import { BLOCK_S } from '#core/steadiness/roll-model.ts';
import { FIRST_PRIOR, priorAfter, type RollPrior } from '#core/steadiness/roll-prior.ts';
import { pendulumHeelDeg, plainMean, plainMedian } from './as-a-person.ts';
import type { EstimatorCell } from './estimator-cells.ts';
import { RECORD_STEP_S, type RollingRecord, rollingRecord } from './rolling-record.ts';
import { boundOf } from './true-bound.ts';

/** Windows in roll periods; a person's ways are followed to the longest. */
export const WINDOWS = [3, 5, 8, 12, 18, 27, 40] as const;
/** States of six periods that have taught the day before its records. */
const TEACHING_STATES = 4;
const TEACHING_PERIODS = 8;
/** Records of one day. */
export const RECORDS_A_DAY = 5;

/** Sums over the records of a cell, by name; they add up over slices. Squared errors in deg2. */
export type CellSums = Record<string, number>;

/** One day of a cell: some states teach, then records are estimated in every way. */
export function scoreDay(cell: EstimatorCell, day: number, sums: CellSums): void {
  const prior = taughtPrior(cell, day);
  for (let n = 0; n < RECORDS_A_DAY; n++) {
    const record = rollingRecord(cell, 100 * day + 10 + n, WINDOWS.at(-1)! * cell.periodS);
    add(sums, 'n', 1);
    own(sums, 'taught3', record, cell, 3, prior);
    own(sums, 'alone3', record, cell, 3, FIRST_PRIOR);
    own(sums, 'alone5', record, cell, 5, FIRST_PRIOR);
    own(sums, 'taught5', record, cell, 5, prior);
    own(sums, 'taught12', record, cell, 12, prior);
    others(sums, record, cell);
  }
}

function add(sums: CellSums, name: string, by: number): void {
  sums[name] = (sums[name] ?? 0) + by;
}

/** Whole blocks, so that every way sees the same samples. */
function samplesOf(cell: EstimatorCell, periods: number): number {
  const blocks = Math.round((periods * cell.periodS) / BLOCK_S);
  return blocks * Math.round(BLOCK_S / RECORD_STEP_S);
}

function fitOf(record: RollingRecord, samples: number, prior: RollPrior): RollFit {
  const values = Array.from(record.readDeg.subarray(0, samples));
  return fitRoll(blocksWithRinging(blockMeans(values, RECORD_STEP_S)), prior);
}

function taughtPrior(cell: EstimatorCell, day: number): RollPrior {
  let prior = FIRST_PRIOR;
  for (let state = 0; state < TEACHING_STATES; state++) {
    const record = rollingRecord(cell, 100 * day + state, TEACHING_PERIODS * cell.periodS);
    const { logs, spread } = fitOf(record, samplesOf(cell, TEACHING_PERIODS), prior);
    prior = priorAfter(logs, spread);
  }
  return prior;
}

function own(
  sums: CellSums,
  name: string,
  record: RollingRecord,
  cell: EstimatorCell,
  periods: number,
  prior: RollPrior,
): void {
  const samples = samplesOf(cell, periods);
  const fit = fitOf(record, samples, prior);
  const error = fit.heelDeg - plainMean(record.restDeg.subarray(0, samples));
  const half = studentTQuantile(0.975, fit.degreesOfFreedom) * Math.sqrt(fit.widenedVariance);
  add(sums, name, error ** 2);
  add(sums, `${name}in`, Math.abs(error) < half ? 1 : 0);
  add(sums, `${name}u2`, fit.widenedVariance);
}

function others(sums: CellSums, record: RollingRecord, cell: EstimatorCell): void {
  const after = WINDOWS.map((periods) => samplesOf(cell, periods));
  const bounds = cell.truth === 'model' ? boundOf(cell, record.readDeg, after) : null;
  WINDOWS.forEach((periods, k) => {
    const upTo = after[k]!;
    const rest = plainMean(record.restDeg.subarray(0, upTo));
    const heard = record.readDeg.subarray(0, upTo);
    if (bounds !== null) add(sums, `bound${periods}`, (bounds[k]! - rest) ** 2);
    add(sums, `mean${periods}`, (plainMean(heard) - rest) ** 2);
    add(sums, `median${periods}`, (plainMedian(heard) - rest) ** 2);
    add(
      sums,
      `extremes${periods}`,
      (pendulumHeelDeg(record.heelDeg.subarray(0, upTo)) - rest) ** 2,
    );
  });
}
