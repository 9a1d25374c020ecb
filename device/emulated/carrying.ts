import type { Place } from '#core/record/line.ts';

/** Seconds from the hook taking a weight to its landing. */
export const CARRY_S = 25;
const LIFTED_AT_S = 6;
const LOWERING_AT_S = 19;
/** The hook's load hangs from the jib: it acts at the jib's head, whatever the length of the fall. */
const JIB_HEAD_M = 6.2;
/** Seconds in which the deck takes the load over; the bump at landing lasts as long again. */
const TAKE_OVER_S = 0.6;
/** A landing weight is stopped from this speed. */
const LANDING_SPEED_M_S = 0.12;
const BUMP_S = 0.3;

/** One weight on its way. */
export interface Carry {
  readonly weight: string;
  readonly startS: number;
  readonly from: Place;
  readonly to: Place;
}

const smooth = (share: number): number => {
  const inside = Math.min(1, Math.max(0, share));
  return inside * inside * (3 - 2 * inside);
};

export function landedS(carry: Carry): number {
  return carry.startS + CARRY_S;
}

/**
 * Where the weight acts at a time: lifted (its load goes over to the jib's head), swung athwart,
 * landed (its load goes back to the deck).
 */
export function carriedPlace(carry: Carry, timeS: number): Place {
  const sinceS = timeS - carry.startS;
  if (sinceS <= 0) return carry.from;
  if (sinceS >= CARRY_S) return carry.to;
  const across = smooth((sinceS - LIFTED_AT_S) / (LOWERING_AT_S - LIFTED_AT_S));
  const taken = smooth((sinceS - LIFTED_AT_S / 2) / TAKE_OVER_S);
  const given = smooth((sinceS - (CARRY_S - TAKE_OVER_S)) / TAKE_OVER_S);
  const deckM = carry.from.zM + (carry.to.zM - carry.from.zM) * across;
  return {
    xM: carry.from.xM + (carry.to.xM - carry.from.xM) * across,
    yM: carry.from.yM + (carry.to.yM - carry.from.yM) * across,
    zM: deckM + (JIB_HEAD_M - deckM) * (taken - given),
  };
}

/** Moment of the bump at landing, t*m to starboard: the weight's stopping force at its place. */
export function landingBumpTM(carry: Carry, massT: number, timeS: number, gravity: number): number {
  const sinceS = timeS - landedS(carry);
  if (sinceS <= 0 || sinceS >= BUMP_S) return 0;
  const force = (massT * LANDING_SPEED_M_S) / (BUMP_S * gravity);
  return carry.to.yM * force * (1 - Math.cos((2 * Math.PI * sinceS) / BUMP_S));
}
