/**
 * A free roll as numbers: the heel swings about an offset with an amplitude that falls as
 * dA/dt = -(decay A + quadratic A^2), which is Froude's decrement per half cycle, a A + b A^2
 * (a = decay x half a period, b = quadratic x half a period). Degrees and seconds; time runs from
 * the start of the run. Without the quadratic part this is the decaying cosine, exactly.
 */
export interface RollDecay {
  readonly offsetDeg: number;
  /** Amplitude at time 0 in phase and in quadrature: heel = offset + g (cosine cos - sine sin). */
  readonly cosineDeg: number;
  readonly sineDeg: number;
  /** Angular frequency of the damped roll, radians a second. */
  readonly omegaPerS: number;
  readonly decayPerS: number;
  /** Per degree and second. */
  readonly quadraticPerDegS: number;
}

export const amplitudeAtStartDeg = (roll: RollDecay) => Math.hypot(roll.cosineDeg, roll.sineDeg);

/** Amplitude at a time, degrees. */
export function amplitudeDeg(roll: RollDecay, timeS: number): number {
  return amplitudeAtStartDeg(roll) * fallen(roll, timeS);
}

/** Share of the first amplitude that is left. */
function fallen(roll: RollDecay, timeS: number): number {
  const { decayPerS, quadraticPerDegS } = roll;
  const exponent = decayPerS * timeS;
  const reachS = decayPerS === 0 ? timeS : -Math.expm1(-exponent) / decayPerS;
  return Math.exp(-exponent) / (1 + quadraticPerDegS * amplitudeAtStartDeg(roll) * reachS);
}

export function heelDegAt(roll: RollDecay, timeS: number): number {
  const turn = roll.omegaPerS * timeS;
  const swing = roll.cosineDeg * Math.cos(turn) - roll.sineDeg * Math.sin(turn);
  return roll.offsetDeg + fallen(roll, timeS) * swing;
}

/** Damping ratio a linear decay of this rate has at this damped frequency. */
export function dampingRatioOf(decayPerS: number, omegaPerS: number): number {
  return decayPerS / Math.hypot(decayPerS, omegaPerS);
}

/** The rate of decay at an amplitude, were it linear: what a few cycles about it show. */
export function decayPerSAt(roll: RollDecay, atDeg: number): number {
  return roll.decayPerS + roll.quadraticPerDegS * atDeg;
}
