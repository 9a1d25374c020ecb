import type { EventDraw } from './events.ts';

/** Air density, kg/m3, and drag coefficient of a workboat's side (*common practice, no source*). */
const AIR_KG_M3 = 1.23;
const DRAG = 1.1;
const STANDARD_GRAVITY = 9.80665;

/** What the wind presses on, and how far its centre is over the centre of the underwater side. */
export interface Windage {
  readonly areaM2: number;
  readonly leverM: number;
}

/** Heeling moment of an athwartships wind, t*m, positive when it blows to starboard. */
export function windMomentTM(windage: Windage, acrossMS: number): number {
  const pressurePa = 0.5 * AIR_KG_M3 * DRAG * acrossMS * Math.abs(acrossMS);
  return (pressurePa * windage.areaM2 * windage.leverM) / (1000 * STANDARD_GRAVITY);
}

export const LONGEST_GUST_S = 40;

/** Extra athwartships wind of one gust, m/s: rises in seconds, falls slowly, both smoothly. */
export function gustMS(ageS: number, draw: EventDraw): number {
  const strengthMS = 3 + 3 * draw(1);
  const risingS = 2 + 3 * draw(2);
  const fallingS = 8 + 12 * draw(3);
  if (ageS <= 0 || ageS >= risingS + fallingS) return 0;
  const share = ageS < risingS ? ageS / risingS : 1 - (ageS - risingS) / fallingS;
  return strengthMS * 0.5 * (1 - Math.cos(Math.PI * share));
}
