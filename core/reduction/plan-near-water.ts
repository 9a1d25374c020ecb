import type { Hull } from '../hull/hull.ts';
import { heelLimits } from '../hull/righting-lever.ts';
import type { Advice } from '../quantity/advice.ts';
import type { PlanForecast } from './plan-forecast.ts';
import { nearTheWater } from './plan-safety.ts';

/** How a hull floats for a look at its edges: volume in m3, trim held, positive by the stern. */
export interface LooksAt {
  readonly volumeM3: number;
  readonly trimRad: number;
}

/**
 * Deck edge and openings that come under water within twice the planned heel of either side. Throws
 * what `heelLimits` throws.
 */
export function planNearTheWater(
  hull: Hull,
  { shifts, kgM }: Pick<PlanForecast, 'shifts' | 'kgM'>,
  { volumeM3, trimRad }: LooksAt,
): Advice[] {
  const trimming = { fixedTrimRad: trimRad };
  const sides = (['port', 'starboard'] as const).map((side) => ({
    side,
    // With the trim held deck edge and openings hang on no KG: any serves where none is known yet.
    ...heelLimits(hull, { volumeM3, trimming, kgM: kgM?.value ?? 0, tcgM: 0, side }),
  }));
  return nearTheWater(sides, {
    port: Math.max(0, ...shifts.map((one) => -one.heelDeg)),
    starboard: Math.max(0, ...shifts.map((one) => one.heelDeg)),
  });
}
