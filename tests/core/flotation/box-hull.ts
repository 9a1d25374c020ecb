import type { CutHull } from '#core/flotation/hull-afloat.ts';
import { upwardNormal, type Waterline } from '#core/hull/waterline.ts';

/** A box L 20, B 6 m in closed form at any heel and trim that leaves bottom and deck whole. */
export const BOX_LENGTH_M = 20;
const B = 6;

/** Height of the water along the ship's z: middle of the length, and its two slopes. */
function water(waterline: Waterline) {
  const up = upwardNormal(waterline);
  const heel = -up.yM / up.zM;
  const trim = up.xM / up.zM;
  return { middle: (waterline.levelM - (up.xM * BOX_LENGTH_M) / 2) / up.zM, heel, trim, up };
}

export const BOX_HULL: CutHull = {
  depthM: 3,
  immersed(waterline) {
    const { middle, heel, trim } = water(waterline);
    const squares = middle ** 2 + (trim * BOX_LENGTH_M) ** 2 / 12 + (heel * B) ** 2 / 12;
    return {
      volumeM3: BOX_LENGTH_M * B * middle,
      centre: {
        xM: BOX_LENGTH_M / 2 - (trim * BOX_LENGTH_M ** 2) / 12 / middle,
        yM: (heel * B ** 2) / 12 / middle,
        zM: squares / 2 / middle,
      },
    };
  },
  waterplane(waterline) {
    const { middle, up } = water(waterline);
    const areaM2 = (BOX_LENGTH_M * B) / up.zM;
    return {
      areaM2,
      centroid: { xM: BOX_LENGTH_M / 2, yM: 0, zM: middle },
      transverseM4: (areaM2 * B ** 2) / 12,
      longitudinalM4: (areaM2 * BOX_LENGTH_M ** 2) / 12 / up.zM ** 2,
      productM4: 0,
    };
  },
};
