import { Fault } from '../fault/fault.ts';
import { type CurveFit, fitCurve } from '../numerics/gauss-newton.ts';
import { leastSquares } from '../numerics/least-squares.ts';
import { heelDegAt, type RollDecay } from './roll-decay.ts';

/** A stretch of one instrument: times from its start, irregular, rising; heel in degrees. */
export interface RollSamples {
  readonly timeS: ArrayLike<number>;
  readonly heelDeg: ArrayLike<number>;
}

export interface DecayFit {
  readonly roll: RollDecay;
  readonly curve: CurveFit;
}

const FEWEST_SAMPLES = 12;
/** A beginning needs no more. */
const MOST_FOR_START = 2000;
const START_DAMPING = [0.03, 0.1, 0.005] as const;
const ORDER = [
  'offsetDeg',
  'cosineDeg',
  'sineDeg',
  'omegaPerS',
  'decayPerS',
  'quadraticPerDegS',
] as const;

/**
 * Least squares of a free roll on a stretch, begun near `periodS`: without the quadratic damping,
 * or with it. The numbers stand in the order offset, cosine, sine, omega, decay, quadratic.
 * Throws `input-too-few` and `no-convergence`.
 */
export function fitDecay(samples: RollSamples, periodS: number, quadratic: boolean): DecayFit {
  const { timeS, heelDeg } = samples;
  if (timeS.length < FEWEST_SAMPLES) {
    throw new Fault('input-too-few', 'roll', `${timeS.length} samples, at least ${FEWEST_SAMPLES}`);
  }
  const start = startOf(samples, periodS);
  const lengthS = timeS[timeS.length - 1]! - timeS[0]!;
  const swing = Math.max(Math.hypot(start.cosineDeg, start.sineDeg), 1e-9);
  const reach = [swing, swing, swing, 1 / lengthS, 1 / lengthS, 1 / (lengthS * swing)];
  const count = quadratic ? ORDER.length : ORDER.length - 1;
  const curve = fitCurve({
    seen: heelDeg,
    start: ORDER.slice(0, count).map((name) => start[name]),
    reach: reach.slice(0, count).map((one) => 1e-5 * one),
    curveOf: (numbers, heel) => {
      const roll = decayOf(numbers);
      for (let k = 0; k < heel.length; k++) heel[k] = heelDegAt(roll, timeS[k]!);
    },
  });
  const roll = decayOf(curve.numbers);
  if (!(roll.omegaPerS > 0)) throw new Fault('no-convergence', 'roll', 'no period');
  return { roll, curve };
}

export function decayOf(numbers: readonly number[]): RollDecay {
  return {
    offsetDeg: numbers[0]!,
    cosineDeg: numbers[1]!,
    sineDeg: numbers[2]!,
    omegaPerS: numbers[3]!,
    decayPerS: numbers[4]!,
    quadraticPerDegS: numbers[5] ?? 0,
  };
}

/** Offset and swing by linear least squares at the period given and the likeliest of a few dampings. */
function startOf({ timeS, heelDeg }: RollSamples, periodS: number): RollDecay {
  const omegaPerS = (2 * Math.PI) / periodS;
  const step = Math.ceil(heelDeg.length / MOST_FOR_START);
  const places = Array.from({ length: Math.ceil(heelDeg.length / step) }, (_, k) => k * step);
  const seen = places.map((place) => heelDeg[place]!);
  const tried = START_DAMPING.map((damping) => {
    const decayPerS = damping * omegaPerS;
    const design = places.map((place) => {
      const left = Math.exp(-decayPerS * timeS[place]!);
      const turn = omegaPerS * timeS[place]!;
      return [1, left * Math.cos(turn), -left * Math.sin(turn)];
    });
    const { coefficients, rest } = leastSquares(design, seen);
    return { roll: decayOf([...coefficients, omegaPerS, decayPerS]), rest };
  });
  return tried.reduce((best, one) => (one.rest < best.rest ? one : best)).roll;
}
