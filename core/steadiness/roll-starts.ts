import { Matrix, solve } from 'ml-matrix';
import type { HeelBlocks } from './heel-blocks.ts';
import { BLOCK_S, LONGEST_PERIOD_S, SHORTEST_PERIOD_S } from './roll-model.ts';
import type { RollPrior } from './roll-prior.ts';

const PERIODS_TRIED = 40;

/**
 * Where to begin the search for the model: what was known before, the strongest period seen, and
 * the damped oscillation that three neighbouring blocks fit best (exact for a free decay).
 */
export function likelyStarts(blocks: HeelBlocks, prior: RollPrior): number[][] {
  const values = Array.from(blocks.heelDeg).filter((value) => !Number.isNaN(value));
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const spread = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length);
  const logRoll = Math.log(Math.max(spread, 1e-5));
  const [period = 0, damping = 0, , noise = 0, ...wind] = prior.mean;
  const starts = [[...prior.mean], [period, damping, logRoll, noise, ...wind]];
  starts.push([Math.log(strongestPeriodS(blocks.heelDeg, mean)), damping, logRoll, noise, ...wind]);
  const decay = bestDecay(blocks.heelDeg, mean);
  if (decay !== null) {
    const [logPeriod, logDamping, leftDeg] = decay;
    starts.push([logPeriod, logDamping, logRoll, noise, ...wind]);
    const logLeft = Math.log(Math.max(leftDeg, 1e-5));
    starts.push([logPeriod, logDamping, logLeft, logLeft, ...wind]);
  }
  return starts;
}

/** The period of the largest line in the spectrum, seconds. */
function strongestPeriodS(heelDeg: ArrayLike<number>, mean: number): number {
  let best = SHORTEST_PERIOD_S;
  let bestPower = -1;
  for (let n = 0; n <= PERIODS_TRIED; n++) {
    const periodS =
      1.1 * SHORTEST_PERIOD_S * (LONGEST_PERIOD_S / 1.5 / SHORTEST_PERIOD_S) ** (n / PERIODS_TRIED);
    const turn = (2 * Math.PI * BLOCK_S) / periodS;
    let cosine = 0;
    let sine = 0;
    for (let k = 0; k < heelDeg.length; k++) {
      const value = heelDeg[k]!;
      if (Number.isNaN(value)) continue;
      cosine += (value - mean) * Math.cos(turn * k);
      sine += (value - mean) * Math.sin(turn * k);
    }
    const power = cosine ** 2 + sine ** 2;
    if (power > bestPower) {
      bestPower = power;
      best = periodS;
    }
  }
  return best;
}

/** Least squares of y_k = p y_{k-1} + q y_{k-2} + c: log period, log damping, what is left over. */
function bestDecay(heelDeg: ArrayLike<number>, mean: number): [number, number, number] | null {
  const rows: number[][] = [];
  const seen: number[][] = [];
  for (let k = 2; k < heelDeg.length; k++) {
    const now = heelDeg[k]! - mean;
    const last = heelDeg[k - 1]! - mean;
    const before = heelDeg[k - 2]! - mean;
    if (Number.isNaN(now + last + before)) continue;
    rows.push([last, before, 1]);
    seen.push([now]);
  }
  if (rows.length < 8) return null;
  const design = new Matrix(rows);
  const solution = solve(design, new Matrix(seen), true);
  const p = solution.get(0, 0);
  const q = solution.get(1, 0);
  if (!(q < 0 && q > -1 && p * p + 4 * q < 0)) return null;
  const decay = -0.5 * Math.log(-q);
  const turn = Math.acos(p / (2 * Math.sqrt(-q)));
  const natural = Math.hypot(decay, turn);
  const left = Matrix.sub(design.mmul(solution), new Matrix(seen));
  const leftDeg = Math.sqrt(left.dot(left) / rows.length);
  return [Math.log((2 * Math.PI * BLOCK_S) / natural), Math.log(decay / natural), leftDeg];
}
