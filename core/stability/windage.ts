import { z } from 'zod';
import { deckEdgeAt, type Hull } from '../hull/hull.ts';
import { draughtAtM, type Waterline } from '../hull/waterline.ts';
import type { Windage } from './evidence.ts';

/** What stands above the deck at side, seen from abeam; the hull up to there is worked out. */
export const windageInput = z.strictObject({
  parts: z
    .array(
      z.strictObject({
        part: z.string().min(1).max(64),
        areaM2: z.number().nonnegative().max(10_000),
        centreZM: z.number().min(-10).max(450).describe('of its area, over the baseline'),
      }),
    )
    .max(60),
});
export type WindageInput = z.infer<typeof windageInput>;

const STRIPS = 120;

/**
 * Lateral area over the water: hull between water and deck at side, and the parts. The wind's lever is
 * taken to half the mean draught (IMO weather criterion, from memory; RD 543/2007 annex II 8). Where
 * the deck is under, the hull has no area there.
 */
export function windageOf(hull: Hull, upright: Waterline, input: WindageInput): Windage {
  const step = (hull.toXM - hull.fromXM) / STRIPS;
  const halfDraughtM = draughtAtM(upright, (hull.aftXM + hull.forwardXM) / 2) / 2;
  const waterM = 2 * halfDraughtM;
  let [areaM2, momentM3] = [0, 0];
  for (let k = 0; k < STRIPS; k++) {
    const xM = hull.fromXM + (k + 0.5) * step;
    const edge = deckEdgeAt(hull, xM);
    const lowM = draughtAtM(upright, xM);
    if (edge === null || !(edge.zM > lowM)) continue;
    areaM2 += (edge.zM - lowM) * step;
    momentM3 += ((edge.zM ** 2 - lowM ** 2) / 2) * step;
  }
  for (const part of input.parts) {
    areaM2 += part.areaM2;
    momentM3 += part.areaM2 * part.centreZM;
  }
  const centreM = areaM2 === 0 ? waterM : momentM3 / areaM2;
  return { areaM2, heightOverWaterM: centreM - waterM, leverM: centreM - halfDraughtM };
}
