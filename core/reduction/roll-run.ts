import { Fault } from '../fault/fault.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import { amplitudeAtStartDeg, amplitudeDeg, dampingRatioOf, decayPerSAt } from './roll-decay.ts';
import { type DecayFit, fitDecay, type RollSamples } from './roll-decay-fit.ts';
import { type DecaySpread, spreadOfDecay } from './roll-decay-spread.ts';
import { type ForcedEvidence, forcedEvidence, type RunRefusal, refusalOf } from './roll-forced.ts';

/** One run of a roll test by one instrument: a stretch of free roll, or why it is none. */
export interface RollRun {
  readonly fromS: number;
  readonly toS: number;
  readonly samples: number;
  /** Whole to-and-fro rolls from first to last extreme. */
  readonly cycles: number;
  /** Of the roll as it is seen, damped: what a stop-watch times. */
  readonly periodS: Uncertain;
  /** At the middle of the amplitudes seen, as a fraction of critical. */
  readonly dampingRatio: Uncertain;
  /** The same by the decaying cosine alone, one damping for all amplitudes. */
  readonly linear: { readonly periodS: Uncertain; readonly dampingRatio: Uncertain };
  /** Froude's decrement of a half cycle, a A + b A^2, A in degrees; `shown`: b is more than chance. */
  readonly froude: {
    readonly a: Uncertain;
    readonly bPerDeg: Uncertain;
    readonly shown: boolean;
  } | null;
  readonly offsetDeg: Uncertain;
  readonly amplitudeFromDeg: number;
  readonly amplitudeToDeg: number;
  readonly noiseDeg: number;
  /** Roll driven by wind and waves meanwhile, standard deviation. */
  readonly drivenDeg: number;
  readonly evidence: ForcedEvidence;
  readonly refused: RunRefusal | null;
}

/** `b` is used once it is larger than this many of its standard uncertainties. Ours. */
const SHOWN = 2.5;

/**
 * One stretch as a free roll. `startS` is where the times of `samples` begin in the record's own
 * time. Throws `input-too-few` and `no-convergence`.
 */
export function rollRun(samples: RollSamples, startS: number, nearPeriodS: number): RollRun {
  const plain = fitDecay(samples, nearPeriodS, false);
  const plainSpread = spreadOfDecay(samples, plain);
  const both = withQuadratic(samples, plain);
  const b = both === null ? null : numberOf(both.fit, both.spread, 5);
  const shown = b !== null && b.value > SHOWN * b.standardUncertainty;
  const { fit, spread } = shown ? both! : { fit: plain, spread: plainSpread };
  const lengthS = samples.timeS[samples.timeS.length - 1]!;
  const periodS = periodOf(fit, spread);
  const cycles = lengthS / periodS.value;
  const evidence = forcedEvidence(samples, { fit: plain, spread: plainSpread }, { fit, spread });
  return {
    fromS: startS,
    toS: startS + lengthS,
    samples: samples.timeS.length,
    cycles,
    periodS,
    dampingRatio: dampingOf(fit, spread, lengthS),
    linear: {
      periodS: periodOf(plain, plainSpread),
      dampingRatio: dampingOf(plain, plainSpread, lengthS),
    },
    froude: both === null || b === null ? null : froudeOf(both.fit, both.spread, shown),
    offsetDeg: numberOf(fit, spread, 0),
    amplitudeFromDeg: amplitudeAtStartDeg(fit.roll),
    amplitudeToDeg: amplitudeDeg(fit.roll, lengthS),
    noiseDeg: spread.noiseDeg,
    drivenDeg: spread.drivenDeg,
    evidence,
    refused: refusalOf(evidence, cycles),
  };
}

/** Null where the stretch does not determine a second damping. */
function withQuadratic(samples: RollSamples, plain: DecayFit) {
  try {
    const fit = fitDecay(samples, (2 * Math.PI) / plain.roll.omegaPerS, true);
    return { fit, spread: spreadOfDecay(samples, fit) };
  } catch (error) {
    if (error instanceof Fault && error.code === 'no-convergence') return null;
    throw error;
  }
}

function numberOf({ curve }: DecayFit, spread: DecaySpread, index: number): Uncertain {
  return {
    value: curve.numbers[index]!,
    standardUncertainty: Math.sqrt(spread.covariance[index]![index]!),
    degreesOfFreedom: spread.degreesOfFreedom,
  };
}

function periodOf(fit: DecayFit, spread: DecaySpread): Uncertain {
  const omega = numberOf(fit, spread, 3);
  const periodS = (2 * Math.PI) / omega.value;
  return {
    value: periodS,
    standardUncertainty: (periodS * omega.standardUncertainty) / omega.value,
    degreesOfFreedom: omega.degreesOfFreedom,
  };
}

/** Decay at the geometric middle of the amplitudes; its variance from the two dampings together. */
function dampingOf(fit: DecayFit, spread: DecaySpread, lengthS: number): Uncertain {
  const { roll } = fit;
  const middleDeg = Math.sqrt(amplitudeAtStartDeg(roll) * amplitudeDeg(roll, lengthS));
  const decayPerS = decayPerSAt(roll, middleDeg);
  const c = spread.covariance;
  const quadratic = fit.curve.numbers.length > 5;
  const variance =
    c[4]![4]! + (quadratic ? 2 * middleDeg * c[4]![5]! + middleDeg ** 2 * c[5]![5]! : 0);
  return {
    value: dampingRatioOf(decayPerS, roll.omegaPerS),
    // d ratio / d decay = omega^2 / (omega^2 + decay^2)^(3/2)
    standardUncertainty:
      (Math.sqrt(variance) * roll.omegaPerS ** 2) / Math.hypot(decayPerS, roll.omegaPerS) ** 3,
    degreesOfFreedom: spread.degreesOfFreedom,
  };
}

function froudeOf(fit: DecayFit, spread: DecaySpread, shown: boolean) {
  const halfPeriodS = Math.PI / fit.roll.omegaPerS;
  const scaled = (one: Uncertain): Uncertain => ({
    ...one,
    value: halfPeriodS * one.value,
    standardUncertainty: halfPeriodS * one.standardUncertainty,
  });
  return {
    a: scaled(numberOf(fit, spread, 4)),
    bPerDeg: scaled(numberOf(fit, spread, 5)),
    shown,
  };
}
