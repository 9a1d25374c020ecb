import { chiSquaredBeyond } from '../numerics/chi-squared.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import type { RollRun } from './roll-run.ts';

/** IMO resolution A.749(18) annex 3, 3.16.1.3: timed, then repeated at least twice more. */
export const RUNS_ASKED = 3;

/** Roll period of a test from its accepted runs. */
export interface RollPeriod {
  readonly runs: number;
  /** Are there as many runs as the text asks? */
  readonly enough: boolean;
  /** Mean over the runs. */
  readonly periodS: Uncertain;
  readonly dampingRatio: Uncertain;
  /** Do the runs differ by more than each of them leaves open? */
  readonly runsDiffer: boolean;
  /** Froude's two, mean over the runs; null where no run determines them. */
  readonly froude: { readonly a: Uncertain; readonly bPerDeg: Uncertain } | null;
}

/** Null without an accepted run. */
export function rollPeriodOf(runs: readonly RollRun[]): RollPeriod | null {
  const free = runs.filter((run) => run.refused === null);
  if (free.length === 0) return null;
  const froudes = free.flatMap((run) => (run.froude === null ? [] : [run.froude]));
  const period = meanOf(free.map((run) => run.periodS));
  return {
    runs: free.length,
    enough: free.length >= RUNS_ASKED,
    periodS: period.mean,
    runsDiffer: period.differ,
    dampingRatio: meanOf(free.map((run) => run.dampingRatio)).mean,
    froude:
      froudes.length === 0
        ? null
        : {
            a: meanOf(froudes.map((one) => one.a)).mean,
            bPerDeg: meanOf(froudes.map((one) => one.bPerDeg)).mean,
          },
  };
}

/** Runs that scatter so much by chance once in twenty tests differ. Ours. */
const DIFFER = 0.05;

/**
 * The plain mean, as the text asks. Its uncertainty is what the runs say of themselves; where they
 * scatter beyond that by more than chance, the scatter, with Student's t by their number.
 */
function meanOf(values: readonly Uncertain[]): { mean: Uncertain; differ: boolean } {
  const count = values.length;
  const value = values.reduce((sum, one) => sum + one.value, 0) / count;
  const own = Math.hypot(...values.map((one) => one.standardUncertainty)) / count;
  const ownFreedom =
    own ** 4 /
    values.reduce(
      (sum, one) => sum + (one.standardUncertainty / count) ** 4 / one.degreesOfFreedom,
      0,
    );
  if (count === 1) return { mean: { ...values[0]! }, differ: false };
  const squares = values.reduce((sum, one) => sum + (one.value - value) ** 2, 0);
  const ratio = values.reduce(
    (sum, one) => sum + ((one.value - value) / one.standardUncertainty) ** 2,
    0,
  );
  const differ = chiSquaredBeyond(ratio, count - 1) < DIFFER;
  const seen = Math.sqrt(squares / (count - 1) / count);
  const standardUncertainty = differ ? Math.max(own, seen) : own;
  const degreesOfFreedom = differ ? count - 1 : ownFreedom;
  return { mean: { value, standardUncertainty, degreesOfFreedom }, differ };
}
