import { bracketedRoot } from '../numerics/root.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import type { Levers, Side } from './evidence.ts';

const STEP_RAD = radiansFromDegrees(0.25);
/** Levers at upright under this are none: rounding. m. */
const NO_LEVER_M = 1e-10;

/**
 * Heel at which she rests by herself, starboard positive: the nearest to upright where the lever
 * passes from heeling to righting. Of two angles of loll, to starboard. Null: none within 90 degrees.
 */
export function restHeelRad(levers: (side: Side) => Levers): number | null {
  const starboard = levers('starboard').leverM(0);
  const side: Side = starboard > NO_LEVER_M ? 'port' : 'starboard';
  const way = side === 'starboard' ? 1 : -1;
  const { leverM, mostHeelRad } = levers(side);
  const heeling = Math.abs(starboard) > NO_LEVER_M;
  if (!heeling && leverM(STEP_RAD / 100) >= 0) return 0;
  let from = heeling ? 0 : STEP_RAD / 100;
  for (let to = STEP_RAD; to <= mostHeelRad; from = to, to += STEP_RAD) {
    if (leverM(to) < 0) continue;
    return leverM(to) === 0 ? way * to : way * bracketedRoot(leverM, from, to);
  }
  return null;
}
