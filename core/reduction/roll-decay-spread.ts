import { Matrix, pseudoInverse } from 'ml-matrix';
import type { RollDecay } from './roll-decay.ts';
import type { DecayFit, RollSamples } from './roll-decay-fit.ts';

/** What a fitted free roll leaves, and what follows for its numbers. */
export interface DecaySpread {
  /** Standard deviation of one sample by the instrument alone, degrees. */
  readonly noiseDeg: number;
  /** Standard deviation of the roll that wind and waves drove in the same time, degrees; 0: none seen. */
  readonly drivenDeg: number;
  /** Covariance of the fit's numbers, in their order. */
  readonly covariance: readonly (readonly number[])[];
  readonly degreesOfFreedom: number;
}

/** Means this many a period carry all that bears on the roll. */
const BLOCKS_A_PERIOD = 16;
const MOST_BLOCKS = 800;
/** Residuals go together by more than noise from so many standard deviations on. Ours. */
const DRIVEN_SHOWN = 1.5;

interface Blocks {
  readonly timeS: number[];
  readonly residualDeg: number[];
  readonly slopes: number[][];
  /** Samples in each. */
  readonly count: number[];
}

/**
 * White noise alone would give the covariance of plain least squares, which is Fisher's bound. What
 * drives her during the decay leaves residuals that swing with her own period and damping. Where
 * they go together that way by more than noise would, both variances are found by moments (squares
 * of the residuals, and of their second differences, which a swing hardly enters), set against what
 * the fit itself takes up, and go through the same least squares. Degrees of freedom by Satterthwaite.
 */
export function spreadOfDecay(samples: RollSamples, { roll, curve }: DecayFit): DecaySpread {
  const blocks = blocksOf(samples, roll, curve.residuals, curve.slopes);
  const slopes = new Matrix(blocks.slopes);
  const inverse = pseudoInverse(slopes.transpose().mmul(slopes));
  const correlation = correlationOf(blocks, roll);
  const hat = slopes.mmul(inverse); // its columns weigh the residuals into the numbers
  const carried = correlation.mmul(hat);
  const traces = tracesOf(correlation, slopes, carried);
  const { white, driven } = variances(blocks.residualDeg, correlation, traces);
  const covariance = Matrix.add(
    Matrix.mul(inverse, white),
    Matrix.mul(hat.transpose().mmul(carried), driven),
  );
  const samplesABlock = blocks.count.reduce((sum, count) => sum + count, 0) / blocks.count.length;
  return {
    noiseDeg: Math.sqrt(white * samplesABlock),
    drivenDeg: Math.sqrt(driven),
    covariance: covariance.to2DArray(),
    degreesOfFreedom: freedomOf(traces, white, driven),
  };
}

/** Of M, MR and MRMR, where M takes the fit out of residuals and R is how a driven roll goes together. */
interface Traces {
  readonly ofWhite: number;
  readonly ofDriven: number;
  readonly ofSquare: number;
}

function tracesOf(correlation: Matrix, slopes: Matrix, carried: Matrix): Traces {
  const through = slopes.transpose().mmul(carried);
  const twice = slopes.transpose().mmul(correlation.mmul(carried)).trace();
  return {
    ofWhite: correlation.rows - slopes.columns,
    ofDriven: correlation.rows - through.trace(),
    ofSquare: correlation.dot(correlation) - 2 * twice + through.mmul(through).trace(),
  };
}

/** Of a block by the instrument, and of the driven roll; none under zero. */
function variances(
  residualDeg: readonly number[],
  correlation: Matrix,
  { ofWhite, ofDriven, ofSquare }: Traces,
): { white: number; driven: number } {
  const residuals = Matrix.columnVector([...residualDeg]);
  const squares = residuals.dot(residuals);
  const all = squares / ofWhite;
  const together = residuals.dot(correlation.mmul(residuals));
  const byChance = Math.sqrt(2 * Math.max(ofSquare - ofDriven ** 2 / ofWhite, 0));
  if (together - all * ofDriven < DRIVEN_SHOWN * all * byChance) return { white: all, driven: 0 };
  const differences = secondDifferences(residualDeg, correlation);
  const determinant = ofWhite * differences.ofDriven - ofDriven * differences.ofWhite;
  const driven = (differences.squares * ofWhite - squares * differences.ofWhite) / determinant;
  const white = (squares * differences.ofDriven - differences.squares * ofDriven) / determinant;
  if (!(driven > 0)) return { white: all, driven: 0 };
  if (!(white > 0)) return { white: 0, driven: squares / ofDriven };
  return { white, driven };
}

/** Sum of squared second differences, and what white noise and a driven roll of variance 1 give to it. */
function secondDifferences(residualDeg: readonly number[], correlation: Matrix) {
  let squares = 0;
  let ofDriven = 0;
  for (let k = 2; k < residualDeg.length; k++) {
    squares += (residualDeg[k]! - 2 * residualDeg[k - 1]! + residualDeg[k - 2]!) ** 2;
    const near = correlation.get(k, k - 1) + correlation.get(k - 1, k - 2);
    ofDriven += 6 - 4 * near + 2 * correlation.get(k, k - 2);
  }
  return { squares, ofWhite: 6 * Math.max(residualDeg.length - 2, 1), ofDriven };
}

function blocksOf(
  { timeS }: RollSamples,
  roll: RollDecay,
  residuals: Float64Array,
  slopes: readonly Float64Array[],
): Blocks {
  const from = timeS[0]!;
  const lengthS = timeS[timeS.length - 1]! - from;
  const periodS = (2 * Math.PI) / roll.omegaPerS;
  const blockS = Math.max(periodS / BLOCKS_A_PERIOD, lengthS / MOST_BLOCKS);
  const blocks: Blocks = { timeS: [], residualDeg: [], slopes: [], count: [] };
  for (let k = 0; k < timeS.length; ) {
    const end = from + (Math.floor((timeS[k]! - from) / blockS) + 1) * blockS;
    let next = k;
    let time = 0;
    let left = 0;
    const slope = slopes.map(() => 0);
    for (; next < timeS.length && (next === k || timeS[next]! < end); next++) {
      time += timeS[next]!;
      left += residuals[next]!;
      slopes.forEach((one, i) => {
        slope[i]! += one[next]!;
      });
    }
    const count = next - k;
    blocks.timeS.push(time / count);
    blocks.residualDeg.push(left / count);
    blocks.slopes.push(slope.map((sum) => sum / count));
    blocks.count.push(count);
    k = next;
  }
  return blocks;
}

/** How a driven roll of her own period and damping goes together over time. */
function correlationOf({ timeS }: Blocks, roll: RollDecay): Matrix {
  const correlation = Matrix.zeros(timeS.length, timeS.length);
  for (let i = 0; i < timeS.length; i++) {
    for (let k = 0; k <= i; k++) {
      const value = correlationAt(timeS[i]! - timeS[k]!, roll);
      correlation.set(i, k, value);
      correlation.set(k, i, value);
    }
  }
  return correlation;
}

function correlationAt(apartS: number, { omegaPerS, decayPerS }: RollDecay): number {
  return Math.exp(-Math.max(decayPerS, 0) * apartS) * Math.cos(omegaPerS * apartS);
}

function freedomOf({ ofWhite, ofDriven, ofSquare }: Traces, white: number, driven: number): number {
  const mean = white * ofWhite + driven * ofDriven;
  const variance = white ** 2 * ofWhite + 2 * white * driven * ofDriven + driven ** 2 * ofSquare;
  return mean === 0 ? ofWhite : Math.max(mean ** 2 / variance, 1.5);
}
