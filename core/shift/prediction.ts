import { Fault } from '../fault/fault.ts';
import { studentTBeyond } from '../numerics/student-t.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import { checkPositive } from '../quantity/check.ts';

/** The heel a state will be read at, with one standard error of reading minus prediction. */
export interface HeelPrediction {
  readonly heelDeg: number;
  readonly standardErrorDeg: number;
  readonly degreesOfFreedom: number;
  readonly from: 'guess' | 'line';
}

/** What the line of the states read so far says, as far as the next state needs it. */
export interface LineSoFar {
  readonly middleMomentTM: number;
  readonly tangentAtMiddle: number;
  readonly slopePerTM: number;
  readonly slopeUncertaintyPerTM: number;
  readonly states: number;
  /** Standard deviation of one state about the line, tangent. */
  readonly stateDeviation: number;
  readonly degreesOfFreedom: number;
}

/** Prediction from three states or more: the line carried on, a coming state scattering like those read. */
export function predictFromLine(line: LineSoFar, heelingMomentTM: number): HeelPrediction {
  const lever = heelingMomentTM - line.middleMomentTM;
  const variance =
    line.stateDeviation ** 2 * (1 + 1 / line.states) + (lever * line.slopeUncertaintyPerTM) ** 2;
  const tangent = line.tangentAtMiddle + lever * line.slopePerTM;
  return predictionOf(tangent, variance, line.degreesOfFreedom, 'line');
}

/** The architect's guess of fluid GM before anything is known. */
export interface GmGuess {
  readonly displacementT: number;
  readonly gmM: number;
  readonly gmUncertaintyM: number;
}

export interface StateRead {
  readonly heelingMomentTM: number;
  readonly tangent: number;
  /** Standard error of the tangent. */
  readonly standardError: number;
}

/**
 * Prediction from one or two states: their readings and the guess of GM weighed by their
 * uncertainties (the guess standing as one more observation of the slope).
 */
export function predictFromGuess(
  guess: GmGuess,
  read: readonly StateRead[],
  heelingMomentTM: number,
): HeelPrediction {
  if (read.length === 0) throw new Fault('input-too-few', 'states', 'the zero is not read yet');
  const slopeGuess =
    1 / (checkPositive(guess.displacementT, 'displacement') * checkPositive(guess.gmM, 'GM guess'));
  const slopeVariance =
    (slopeGuess * checkPositive(guess.gmUncertaintyM / guess.gmM, 'guess uncertainty')) ** 2;
  const weights = read.map((one) => 1 / checkPositive(one.standardError, 'standard error') ** 2);
  const weight = weights.reduce((sum, one) => sum + one, 0);
  const mean = (of: (one: StateRead) => number) =>
    read.reduce((sum, one, k) => sum + weights[k]! * of(one), 0) / weight;
  const middle = mean((one) => one.heelingMomentTM);
  const tangent = mean((one) => one.tangent);
  let precision = 1 / slopeVariance;
  let pull = slopeGuess / slopeVariance;
  read.forEach((one, k) => {
    const lever = one.heelingMomentTM - middle;
    precision += weights[k]! * lever * lever;
    pull += weights[k]! * lever * (one.tangent - tangent);
  });
  const lever = heelingMomentTM - middle;
  // the coming reading is taken to be as good as those so far
  const variance = (1 + read.length) / weight + lever ** 2 / precision;
  const predicted = tangent + (lever * pull) / precision;
  return predictionOf(predicted, variance, Number.POSITIVE_INFINITY, 'guess');
}

function predictionOf(
  tangent: number,
  variance: number,
  degreesOfFreedom: number,
  from: HeelPrediction['from'],
): HeelPrediction {
  // d(angle) = d(tangent) / (1 + tangent^2)
  const standardErrorDeg = degreesFromRadians(Math.sqrt(variance)) / (1 + tangent * tangent);
  return {
    heelDeg: degreesFromRadians(Math.atan(tangent)),
    standardErrorDeg,
    degreesOfFreedom,
    from,
  };
}

export interface PredictionCompared {
  readonly differenceDeg: number;
  /** Difference over its standard error. */
  readonly ratio: number;
  /** Probability of so much by chance. */
  readonly probability: number;
  readonly words: 'as predicted' | 'not as predicted';
}

/** Under this probability a heel is called not as predicted: one good shift of a hundred. Ours. */
export const NOT_AS_PREDICTED = 0.01;

/** The heel seen against the one predicted before the weights moved. */
export function comparePrediction(
  predicted: Pick<HeelPrediction, 'heelDeg' | 'standardErrorDeg' | 'degreesOfFreedom'>,
  seenHeelDeg: number,
): PredictionCompared {
  const differenceDeg = seenHeelDeg - predicted.heelDeg;
  const ratio = differenceDeg / checkPositive(predicted.standardErrorDeg, 'standard error');
  const probability = studentTBeyond(ratio, predicted.degreesOfFreedom);
  const words = probability < NOT_AS_PREDICTED ? 'not as predicted' : 'as predicted';
  return { differenceDeg, ratio, probability, words };
}
