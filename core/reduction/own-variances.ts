import { chiSquaredBeyond } from '../numerics/chi-squared.ts';
import { interceptColumns, type LineReadings, lineRows, withinStates } from './line-model.ts';

/** Instruments weigh unalike only where equal scatter would come by less chance than this. Ours. */
const LEVEL = 0.01;
/**
 * Each instrument's variance is drawn towards the common one as if this many freedoms of it spoke
 * for that: with some eight readings each, none may run away with the weight. Ours.
 */
const PRIOR_FREEDOM = 2;
const ROUNDS = 20;

/**
 * The instruments' own variances, relative, as their scatter within states shows them; undefined
 * where they do not differ by more than chance, and for fewer than three instruments, whose scatter
 * cannot be told apart. So a pendulum read to a millimetre beside good sensors does not spoil them.
 *
 * Restricted maximum likelihood of the model with a value for each state and an intercept for each
 * instrument (Searle, Casella & McCulloch, Variance Components, 1992, from memory), drawn together
 * as said, and compared with equal variances by the likelihood ratio.
 */
export function learnedOwnVariances(readings: LineReadings): number[] | undefined {
  const instruments = readings.tangents[0]?.length ?? 0;
  if (instruments < 3) return undefined;
  const equal = scatterWith(readings, new Array<number>(instruments).fill(1));
  const freedom = sum(equal.freedom);
  const squares = sum(equal.squares);
  if (freedom < instruments || squares === 0 || equal.freedom.some((one) => one < 1)) {
    return undefined;
  }
  const common = squares / freedom;
  let variances = equal.freedom.map(() => common);
  for (let round = 0; round < ROUNDS; round++) {
    const now = scatterWith(readings, variances);
    variances = now.squares.map(
      (square, j) => (PRIOR_FREEDOM * common + square) / (PRIOR_FREEDOM + now.freedom[j]!),
    );
  }
  const allEqual = equal.freedom.map(() => common);
  const ratio =
    scatterWith(readings, allEqual).minusTwiceLogLikelihood -
    scatterWith(readings, variances).minusTwiceLogLikelihood;
  const probability = chiSquaredBeyond(Math.max(0, ratio), instruments - 1);
  return probability < LEVEL ? variances : undefined;
}

interface Scatter {
  /** Sum of squared residuals of each instrument, and the freedom left to them. */
  readonly squares: readonly number[];
  readonly freedom: readonly number[];
  readonly minusTwiceLogLikelihood: number;
}

function scatterWith(readings: LineReadings, variances: readonly number[]): Scatter {
  const rows = lineRows({ ...readings, ownVariances: variances });
  const { basis, lengths, left } = withinStates(rows, interceptColumns(rows));
  const mean = sum(variances) / variances.length;
  const weights = new Array<number>(rows.states).fill(0);
  for (const row of rows.rows) weights[row.state]! += row.root * row.root;
  const squares = variances.map(() => 0);
  const freedom = variances.map(() => 0);
  let twice = 0;
  rows.rows.forEach(({ state, instrument, root }, k) => {
    const taken = (root * root) / weights[state]! + sum(basis.map((unit) => unit[k]! ** 2));
    squares[instrument]! += (left[k]! / root) ** 2;
    freedom[instrument]! += 1 - taken;
    twice += Math.log(variances[instrument]!) + left[k]! ** 2 / mean;
  });
  twice += sum(weights.map((weight) => Math.log(weight / mean)));
  twice += sum(lengths.map((length) => 2 * Math.log(length) - Math.log(mean)));
  return { squares, freedom, minusTwiceLogLikelihood: twice };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** Share of each instrument in the mean of a state they are all read in. */
export function instrumentWeights({ tangents, ownVariances }: LineReadings): number[] {
  const weights = tangents[0]!.map((_, j) => 1 / (ownVariances?.[j] ?? 1));
  const together = sum(weights);
  return weights.map((weight) => weight / together);
}
