import type { EventDraw } from './events.ts';

/** A person of this mass leaves the mark, crosses the deck, stands there and comes back. */
const MASS_T = 0.085;
const WALKING_M_S = 0.9;
const STEPS_HZ = 1.9;
/** Each step shifts the weight a little to and fro, metres of its own lever. */
const STEP_SWAY_M = 0.06;

export const LONGEST_WALK_S = 60;

/** Moment of one walk, t*m to starboard, against the person standing at the mark. */
export function walkMomentTM(ageS: number, draw: EventDraw): number {
  const reachM = 1.2 + 1.0 * draw(1);
  const side = draw(2) < 0.5 ? -1 : 1;
  const crossingS = reachM / WALKING_M_S;
  const backAtS = crossingS + 8 + 20 * draw(3);
  const out = progress(ageS / crossingS) - progress((ageS - backAtS) / crossingS);
  const moving = (ageS > 0 && ageS < crossingS) || (ageS > backAtS && ageS < backAtS + crossingS);
  const sway = moving ? STEP_SWAY_M * Math.sin(2 * Math.PI * STEPS_HZ * ageS) : 0;
  return MASS_T * (side * reachM * out + sway);
}

function progress(share: number): number {
  const inside = Math.min(1, Math.max(0, share));
  return inside * inside * (3 - 2 * inside);
}
