import { CholeskyDecomposition, EigenvalueDecomposition, Matrix } from 'ml-matrix';
import type { HeelBlocks } from './heel-blocks.ts';
import { HeelFilter } from './heel-filter.ts';
import { heelLawOf, type PossibleHeel } from './heel-law.ts';
import type { RollModel } from './roll-model.ts';
import { modelOf, priorCost, type RollPrior } from './roll-prior.ts';
import { likelyStarts } from './roll-starts.ts';

/** The model a window speaks for, with what the window leaves open. */
export interface RollFit {
  readonly model: RollModel;
  readonly heelDeg: number;
  /** Squared standard error of the heel, model taken as true. */
  readonly variance: number;
  /** Squared standard error, widened for what had to be learned of the model. */
  readonly widenedVariance: number;
  readonly degreesOfFreedom: number;
  readonly logs: readonly number[];
  /** Standard deviation left of each logarithm. */
  readonly spread: readonly number[];
}

interface Tried {
  readonly cost: number;
  readonly heelDeg: number;
  readonly variance: number;
}

const NUMBERS = 6;
const MOST_STEPS = 25;
/** A step that promises less gain of log likelihood than this ends the search. */
const GAIN_ENOUGH = 0.01;
/** A ringing is told from driven roll when it is larger than 2.45 of its standard deviations. */
const RINGING_SQUARED = 6;

/** Runs one model over the blocks. */
export function heelOfBlocks(blocks: HeelBlocks, model: RollModel): HeelFilter {
  const { heelDeg, ringingDeg } = blocks;
  let first = 0;
  while (first < heelDeg.length && Number.isNaN(heelDeg[first])) first += 1;
  const filter = new HeelFilter(model, heelDeg[first] ?? 0);
  for (let k = first; k < heelDeg.length; k++) {
    const ringing = ringingDeg[k]!;
    if (!Number.isNaN(ringing)) {
      const beyond = ringing ** 2 - RINGING_SQUARED * model.rollDeg ** 2;
      filter.letRing(beyond > 0 ? 2 * Math.sqrt(beyond) : 0);
    }
    const value = heelDeg[k]!;
    if (Number.isNaN(value)) filter.skip();
    else filter.push(value);
  }
  return filter;
}

/**
 * The most likely model of a window, given what was known before (maximum of the posterior, its
 * width from the curvature there), and the mean heel under it. The mean's variance is widened by
 * the change of the mean with the model's numbers and by as much again for the bias of a plug-in
 * variance (after Kenward and Roger, Biometrics 53 (1997) 983, from memory); degrees of freedom
 * by Satterthwaite from the spread of the variance. `near` (an earlier fit of the same window)
 * saves time and changes nothing else.
 */
export function fitRoll(blocks: HeelBlocks, prior: RollPrior, near?: RollFit): RollFit {
  const tryLogs = (logs: ArrayLike<number>): Tried => {
    const filter = heelOfBlocks(blocks, modelOf(logs));
    const cost = filter.minusLogLikelihood + priorCost(logs, prior);
    return { cost, heelDeg: filter.heelDeg, variance: filter.variance };
  };
  const starts = near === undefined ? likelyStarts(blocks, prior) : [[...near.logs]];
  let best = starts[0]!;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const start of starts) {
    const { cost } = tryLogs(start);
    if (cost < bestCost) {
      best = start;
      bestCost = cost;
    }
  }
  const { logs, local } = descend(best, tryLogs, near?.spread ?? prior.spread);
  const model = modelOf(logs);
  const { heelDeg, variance } = local.centre;
  const law = heelLawOf(heelDeg, possibleHeels(logs, local, tryLogs));
  return {
    model,
    heelDeg,
    variance,
    widenedVariance: law.variance,
    degreesOfFreedom: law.degreesOfFreedom,
    logs,
    spread: local.covariance.map((row, i) => Math.sqrt(row[i]!)),
  };
}

/** Where the models are looked at, in standard deviations of what is open of the heel's variance. */
const LOOKED_AT = [-2.5, -1.5, -0.75, 0, 0.75, 1.5, 2.5, 3.5];
const REACHES = LOOKED_AT.map((at, k) => ((LOOKED_AT[k + 1] ?? at) - (LOOKED_AT[k - 1] ?? at)) / 2);

/**
 * The models the window leaves possible, along the one line on which the heel's variance changes;
 * across it the variance stands still, and only what the heel itself may move is added.
 */
function possibleHeels(
  logs: readonly number[],
  local: Local,
  tryLogs: (logs: ArrayLike<number>) => Tried,
): PossibleHeel[] {
  const { covariance, centre, heelGradient, logVarianceGradient } = local;
  const dot = (a: readonly number[], b: readonly number[]) =>
    a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const towards = covariance.map((row) => dot(row, logVarianceGradient));
  const size = Math.sqrt(Math.max(dot(towards, logVarianceGradient), 1e-12));
  const line = towards.map((value) => value / size);
  const heelOpen = dot(
    covariance.map((row) => dot(row, heelGradient)),
    heelGradient,
  );
  const across = Math.max(0, heelOpen - dot(line, heelGradient) ** 2);
  return LOOKED_AT.map((at, k) => {
    const tried = at === 0 ? centre : tryLogs(logs.map((value, i) => value + at * line[i]!));
    return {
      weight: REACHES[k]! * Math.exp(Math.min(20, centre.cost - tried.cost)),
      heelDeg: tried.heelDeg,
      variance: tried.variance + across,
    };
  });
}

interface Local {
  readonly centre: Tried;
  readonly gradient: number[];
  readonly covariance: number[][];
  readonly heelGradient: number[];
  readonly logVarianceGradient: number[];
}

/** Newton's method, each step held to what lowers the cost. */
function descend(
  start: readonly number[],
  tryLogs: (logs: ArrayLike<number>) => Tried,
  spread: readonly number[],
): { logs: number[]; local: Local } {
  let logs = [...start];
  let reach = spread.map((value) => Math.min(0.3 * value, 0.05));
  let local = lookAround(logs, tryLogs, reach);
  for (let step = 0; step < MOST_STEPS; step++) {
    const move = local.covariance.map((row) =>
      row.reduce((sum, value, j) => sum - value * local.gradient[j]!, 0),
    );
    const promised = -0.5 * move.reduce((sum, value, i) => sum + value * local.gradient[i]!, 0);
    if (promised < GAIN_ENOUGH) {
      // So near the top the curvature stays what it is: the last step costs one look, not thirty.
      const there = logs.map((value, i) => value + move[i]!);
      const last = tryLogs(there);
      if (last.cost < local.centre.cost) return { logs: there, local: { ...local, centre: last } };
      break;
    }
    let part = Math.min(1, 1.5 / Math.max(...move.map(Math.abs)));
    let found = false;
    for (; part > 1e-3; part /= 3) {
      const there = logs.map((value, i) => value + part * move[i]!);
      if (tryLogs(there).cost < local.centre.cost) {
        logs = there;
        found = true;
        break;
      }
    }
    if (!found) break;
    reach = local.covariance.map((row, i) => Math.min(0.3 * Math.sqrt(row[i]!), 0.1));
    local = lookAround(logs, tryLogs, reach);
  }
  return { logs, local };
}

/** Slope and curvature by differences of the given reach. */
function lookAround(
  logs: readonly number[],
  tryLogs: (logs: ArrayLike<number>) => Tried,
  reach: readonly number[],
): Local {
  const at = (i: number, j: number): Tried => {
    const there = [...logs];
    there[i] = there[i]! + reach[i]!;
    there[j] = there[j]! + reach[j]!;
    return tryLogs(there);
  };
  const shifted = (i: number, by: number) =>
    tryLogs(logs.map((value, k) => (k === i ? value + by : value)));
  const centre = tryLogs(logs);
  const up = logs.map((_, i) => shifted(i, reach[i]!));
  const down = logs.map((_, i) => shifted(i, -reach[i]!));
  const slope = (pick: (tried: Tried) => number) =>
    logs.map((_, i) => (pick(up[i]!) - pick(down[i]!)) / (2 * reach[i]!));
  const curvature = Matrix.zeros(NUMBERS, NUMBERS);
  for (let i = 0; i < NUMBERS; i++) {
    const own = up[i]!.cost + down[i]!.cost - 2 * centre.cost;
    curvature.set(i, i, own / reach[i]! ** 2);
    for (let j = 0; j < i; j++) {
      // One corner is enough: what it neglects is of the third order over a part of the spread.
      const corner = at(i, j).cost - up[i]!.cost - up[j]!.cost + centre.cost;
      const cross = corner / (reach[i]! * reach[j]!);
      curvature.set(i, j, cross);
      curvature.set(j, i, cross);
    }
  }
  return {
    centre,
    gradient: slope((tried) => tried.cost),
    covariance: invertCurvature(curvature),
    heelGradient: slope((tried) => tried.heelDeg),
    logVarianceGradient: slope((tried) => Math.log(tried.variance)),
  };
}

/** Inverse of the curvature; directions that curve the wrong way or hardly are held by their size. */
function invertCurvature(curvature: Matrix): number[][] {
  const cholesky = new CholeskyDecomposition(curvature);
  if (cholesky.isPositiveDefinite()) {
    return cholesky.solve(Matrix.eye(NUMBERS, NUMBERS)).to2DArray();
  }
  const eigen = new EigenvalueDecomposition(curvature, { assumeSymmetric: true });
  const inverse = Matrix.zeros(NUMBERS, NUMBERS);
  for (let k = 0; k < NUMBERS; k++) {
    const size = 1 / Math.max(Math.abs(eigen.realEigenvalues[k]!), 0.3);
    const direction = eigen.eigenvectorMatrix.getColumnVector(k);
    inverse.add(direction.mmul(direction.transpose()).mul(size));
  }
  return inverse.to2DArray();
}
