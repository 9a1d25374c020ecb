import { leastSquares } from '../numerics/least-squares.ts';

/** One reading of a tube's two legs at rest, each over its own mark, mm. */
export interface LegsRead {
  readonly portMm: number;
  readonly starboardMm: number;
}

/**
 * What the sum of the legs says of the tube. `constant`: no leak, no air. `fallen` and `risen`: it
 * leaks, or was filled up. `moves-with-heel`: air in the tube, or legs of unlike bore. `jumps`: neither
 * of these alone (a bubble that moves, a misread leg).
 */
export type LegSumVerdict = 'constant' | 'fallen' | 'risen' | 'moves-with-heel' | 'jumps';

export interface LegSum {
  readonly meanMm: number;
  /** From the first reading to the last, with what moves with the heel taken out. */
  readonly driftMm: number;
  /** Over the range of the level differences read, with the drift taken out. */
  readonly withHeelMm: number;
  /** The farthest one reading is from what drift and heel say. */
  readonly leftOverMm: number;
  readonly verdict: LegSumVerdict;
}

/** A sum that moves by more is no longer the same water. Common practice says "a few"; our setting. */
export const MOST_SUM_CHANGE_MM = 3;
/** Fewer readings do not tell drift from heel. */
const FEWEST_READINGS = 4;

/**
 * Looks at the sum of the two legs over readings in order. The water between them only changes
 * sides, so that the sum stays, however she heels; a leak leaves the difference as it was, and shows
 * here alone. RangeError without a reading.
 */
export function legSumOf(readings: readonly LegsRead[]): LegSum {
  if (readings.length === 0) throw new RangeError('no legs were read');
  const sums = readings.map(({ portMm, starboardMm }) => portMm + starboardMm);
  const meanMm = sums.reduce((total, sum) => total + sum, 0) / sums.length;
  const differences = readings.map(({ portMm, starboardMm }) => starboardMm - portMm);
  const rangeMm = Math.max(...differences) - Math.min(...differences);
  if (readings.length < FEWEST_READINGS || goesWithTime(differences)) {
    const driftMm = sums.at(-1)! - sums[0]!;
    const leftOverMm = Math.max(...sums) - Math.min(...sums);
    const isOneWay = rangeMm === 0 && Math.abs(driftMm) > MOST_SUM_CHANGE_MM;
    const verdict =
      leftOverMm <= MOST_SUM_CHANGE_MM ? 'constant' : isOneWay ? driftVerdict(driftMm) : 'jumps';
    return { meanMm, driftMm, withHeelMm: 0, leftOverMm, verdict };
  }
  const last = readings.length - 1;
  const middle = differences.reduce((total, one) => total + one, 0) / differences.length;
  const rows = differences.map((one, k) => [1, (one - middle) / rangeMm, k / last - 0.5]);
  const { coefficients, residuals } = leastSquares(rows, sums);
  const [, withHeelMm = 0, driftMm = 0] = coefficients;
  const leftOverMm = Math.max(...residuals.map(Math.abs));
  const verdict = verdictOf(driftMm, withHeelMm, leftOverMm);
  return { meanMm, driftMm, withHeelMm, leftOverMm, verdict };
}

/** Heels that only grow, or only fall, go with the time: the two cannot be told apart then. */
function goesWithTime(differences: readonly number[]): boolean {
  const steps = differences.slice(1).map((one, k) => one - differences[k]!);
  return steps.every((step) => step >= 0) || steps.every((step) => step <= 0);
}

function verdictOf(driftMm: number, withHeelMm: number, leftOverMm: number): LegSumVerdict {
  if (leftOverMm > MOST_SUM_CHANGE_MM) return 'jumps';
  const most = Math.max(Math.abs(driftMm), Math.abs(withHeelMm));
  if (most <= MOST_SUM_CHANGE_MM) return 'constant';
  return Math.abs(withHeelMm) > Math.abs(driftMm) ? 'moves-with-heel' : driftVerdict(driftMm);
}

function driftVerdict(driftMm: number): LegSumVerdict {
  return driftMm < 0 ? 'fallen' : 'risen';
}
