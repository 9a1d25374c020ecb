import { volumeOfSounding } from '../survey/tank-liquid.ts';
import type { Space } from './space.ts';

/** Soundings are tabled at this step (RD 543/2007 annex II 11 asks it of refrigerated sea water tanks). */
const STEP_M = 0.1;
const MOST_ROWS = 60;

/** A tank or hold as a booklet tables it. Cubic metres, metres in ship axes, tonnes a cubic metre. */
export interface SpaceTable {
  readonly space: string;
  readonly use: string;
  readonly densityTM3: number;
  /** When full, with its centroid. */
  readonly volumeM3: number;
  readonly xM: number;
  readonly yM: number;
  readonly zM: number;
  /** Upright and on an even keel; empty without a striking place. The last is the first that is full. */
  readonly soundings: readonly { readonly depthM: number; readonly volumeM3: number }[];
}

const LEVEL = { heelSlope: 0, trimSlope: 0 };

export function spaceTable({
  space,
  use,
  densityTM3,
  whole,
  shape,
  strikingPlace,
}: Space): SpaceTable {
  const soundings: SpaceTable['soundings'][number][] = [];
  if (strikingPlace !== null) {
    for (let k = 0; k <= MOST_ROWS; k++) {
      const depthM = k * STEP_M;
      const volumeM3 = volumeOfSounding(shape, strikingPlace, depthM, LEVEL);
      soundings.push({ depthM, volumeM3 });
      if (volumeM3 >= whole.volumeM3 * (1 - 1e-9)) break;
    }
  }
  return { ...{ space, use, densityTM3 }, ...whole, soundings };
}
