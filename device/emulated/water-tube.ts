import { integrateRungeKutta } from './runge-kutta.ts';
import { GRAVITY_M_S2 } from './vessel.ts';

/**
 * Two wide legs joined by a long narrow tube, filled with water: a column that swings slowly and
 * heavily damped, so that rolling hardly reaches it. Linear theory with laminar friction
 * (Poiseuille) in tube and legs.
 */
export interface TubeGeometry {
  readonly legBoreM: number;
  readonly legFillM: number;
  readonly tubeBoreM: number;
  readonly tubeLengthM: number;
  /** Athwartships distance of the legs. */
  readonly spanM: number;
  /** Height of the cross tube over the roll axis. */
  readonly heightOverRollAxisM: number;
}

/** Kinematic viscosity of water at 20 degC, m2/s (*from memory*; 2.5 % a kelvin). */
const VISCOSITY_M2_S = 1.0e-6;

/** Natural period and share of critical damping. */
export function tubeDynamics(tube: TubeGeometry): { periodS: number; dampingRatio: number } {
  const boreRatio = (tube.legBoreM / tube.tubeBoreM) ** 2;
  const lengthM = 2 * tube.legFillM + tube.tubeLengthM * boreRatio;
  const friction =
    32 *
    VISCOSITY_M2_S *
    ((tube.tubeLengthM * boreRatio) / tube.tubeBoreM ** 2 +
      (2 * tube.legFillM) / tube.legBoreM ** 2);
  const stiffness = 2 * GRAVITY_M_S2;
  return {
    periodS: 2 * Math.PI * Math.sqrt(lengthM / stiffness),
    dampingRatio: friction / (2 * Math.sqrt(stiffness * lengthM)),
  };
}

/** Time constant of the slow end of its settling; the period over 2 pi zeta when it rings. */
export function tubeSlowTimeS(tube: TubeGeometry): number {
  const { periodS, dampingRatio } = tubeDynamics(tube);
  const frequency = (2 * Math.PI) / periodS;
  return dampingRatio > 1
    ? 1 / (frequency * (dampingRatio - Math.sqrt(dampingRatio ** 2 - 1)))
    : 1 / (frequency * dampingRatio);
}

/** Level of the starboard leg over the port leg, mm, and how fast it changes. */
export interface TubeState {
  readonly differenceMm: number;
  readonly rateMmS: number;
}

/** The difference that a steady apparent heel holds: span times tangent. */
export function restingDifferenceMm(tube: TubeGeometry, apparentHeelRad: number): number {
  return tube.spanM * 1000 * Math.tan(apparentHeelRad);
}

/** One step, the apparent heel at the cross tube running straight from before to after. */
export function tubeAfterStep(
  dynamics: { periodS: number; dampingRatio: number },
  state: TubeState,
  drive: { beforeMm: number; afterMm: number },
  stepS: number,
): TubeState {
  const frequency = (2 * Math.PI) / dynamics.periodS;
  const damping = 2 * dynamics.dampingRatio * frequency;
  const [differenceMm, rateMmS] = integrateRungeKutta(
    [state.differenceMm, state.rateMmS],
    stepS,
    (difference, rate, share) => {
      const drivenMm = drive.beforeMm + (drive.afterMm - drive.beforeMm) * share;
      return [rate, frequency ** 2 * (drivenMm - difference) - damping * rate];
    },
  );
  return { differenceMm, rateMmS };
}
