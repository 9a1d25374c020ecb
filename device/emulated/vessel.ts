import { integrateRungeKutta } from './runge-kutta.ts';

/** Gravity at the invented Kettle Sound, m/s2; between the WGS84 values of 45 and 60 degrees. */
export const GRAVITY_M_S2 = 9.815;

/** How a vessel rights as she heels: exact levers of her hull, alike to both sides. */
export interface Righting {
  /** KN / sin(heel) - KM, metres; 0 upright. RangeError beyond the heels it knows. */
  excessM(heelRad: number): number;
  /** Trim by the stern that she takes up at a heel, radians. */
  trimRad(heelRad: number): number;
  /** c2: the apparent GM of one shift reads GM + c2 tan2(heel), to the fourth order. */
  readonly metacentreMovementM: number;
}

/** A vessel with her righting and her weight. Angles in radians, starboard down positive. */
export interface VesselForm {
  readonly displacementT: number;
  /** Height of the metacentre, upright. */
  readonly kmM: number;
  readonly righting: Righting;
  /** Centre of gravity in the reference state, over the baseline and to starboard. */
  readonly kgM: number;
  readonly tcgM: number;
}

export interface RollProperties {
  /** Radius of gyration in roll with the water that moves with her. */
  readonly gyrationM: number;
  /** Share of critical damping that grows with the rate of roll. */
  readonly dampingRatio: number;
  /** Factor of rate times |rate|, per radian. */
  readonly quadraticDamping: number;
}

/** Moments of everything moved since the reference state, t*m: to starboard and upward. */
export interface MovedMoments {
  readonly transverseTM: number;
  readonly verticalTM: number;
}

/** Lever of buoyancy about the middle of the baseline, metres. */
export function rightingKnM(form: VesselForm, heelRad: number): number {
  return (form.kmM + form.righting.excessM(heelRad)) * Math.sin(heelRad);
}

/** Metacentric height, upright, in the reference state. */
export function gmM(form: VesselForm): number {
  return form.kmM - form.kgM;
}

/**
 * Lever that turns her to starboard, metres; zero where she rests:
 * (TCG + m_y/D) cos + (KG + m_z/D) sin - KN, with nothing linearised.
 */
export function heelingLeverM(form: VesselForm, moved: MovedMoments, heelRad: number): number {
  const across = form.tcgM + moved.transverseTM / form.displacementT;
  const up = form.kgM + moved.verticalTM / form.displacementT;
  return across * Math.cos(heelRad) + up * Math.sin(heelRad) - rightingKnM(form, heelRad);
}

const MOST_HEEL_RAD = 0.7;
const SEARCH_STEP_RAD = 0.05;

/**
 * Where she rests under the moved moments, the first position on the side they turn her to, by
 * halving the interval to the last bit. RangeError when she does not rest within 40 degrees.
 */
export function restingHeelRad(form: VesselForm, moved: MovedMoments): number {
  const lever = (heelRad: number) => heelingLeverM(form, moved, heelRad);
  if (lever(0) === 0) return 0;
  const way = Math.sign(lever(0));
  let outer = SEARCH_STEP_RAD;
  while (way * lever(way * outer) > 0) {
    outer += SEARCH_STEP_RAD;
    if (outer > MOST_HEEL_RAD) throw new RangeError('the vessel does not rest within 40 degrees');
  }
  let low = outer - SEARCH_STEP_RAD;
  let high = outer;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return way * middle;
    if (way * lever(way * middle) > 0) low = middle;
    else high = middle;
  }
}

/** Natural period of small rolls, T = 2 pi k / sqrt(g GM), seconds. */
export function naturalPeriodS(form: VesselForm, roll: RollProperties): number {
  return (2 * Math.PI * roll.gyrationM) / Math.sqrt(GRAVITY_M_S2 * gmM(form));
}

export interface RollState {
  readonly heelRad: number;
  readonly rateRadS: number;
}

/** What turns her at one instant besides her own weight and buoyancy. */
export interface RollLoad extends MovedMoments {
  /** Outside moment, t*m, starboard down positive. */
  readonly outsideTM: number;
}

/** Roll acceleration, rad/s2. */
export function rollAcceleration(
  form: VesselForm,
  roll: RollProperties,
  state: RollState,
  load: RollLoad,
): number {
  const leverM = heelingLeverM(form, load, state.heelRad) + load.outsideTM / form.displacementT;
  const frequency = (2 * Math.PI) / naturalPeriodS(form, roll);
  const damping =
    2 * roll.dampingRatio * frequency * state.rateRadS +
    roll.quadraticDamping * state.rateRadS * Math.abs(state.rateRadS);
  return (GRAVITY_M_S2 * leverM) / roll.gyrationM ** 2 - damping;
}

/** One step of the roll, the load running straight from its value before to its value after. */
export function rollAfterStep(
  form: VesselForm,
  roll: RollProperties,
  state: RollState,
  loads: { before: RollLoad; after: RollLoad },
  stepS: number,
): RollState {
  const [heelRad, rateRadS] = integrateRungeKutta(
    [state.heelRad, state.rateRadS],
    stepS,
    (heel, rate, share) => [
      rate,
      rollAcceleration(form, roll, { heelRad: heel, rateRadS: rate }, loadBetween(loads, share)),
    ],
  );
  return { heelRad, rateRadS };
}

function loadBetween(loads: { before: RollLoad; after: RollLoad }, share: number): RollLoad {
  const { before, after } = loads;
  const mix = (a: number, b: number) => a + (b - a) * share;
  return {
    transverseTM: mix(before.transverseTM, after.transverseTM),
    verticalTM: mix(before.verticalTM, after.verticalTM),
    outsideTM: mix(before.outsideTM, after.outsideTM),
  };
}
