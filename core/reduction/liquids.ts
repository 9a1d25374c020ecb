import { type LiquidBody, liquidAtRest, type TankShape } from '../survey/tank-liquid.ts';

/** Liquid aboard while she was inclined. */
export interface LiquidAboard {
  readonly tank: string;
  readonly shape: TankShape;
  readonly volumeM3: number;
  /** Tonnes a cubic metre. */
  readonly densityTM3: number;
}

/**
 * What the liquids do to the righting side at a heel, m: the sum over the tanks of
 * (mass / displacement) (dy cos(heel) + dz sin(heel)), dy and dz the movement of each liquid's
 * centroid in ship axes since upright. Taken from KN it leaves a KG of the vessel with her liquids
 * held still as they lie upright: KG solid. Exact for the tank's own shape at any heel, also where
 * the liquid meets the top or leaves a side dry.
 */
export function liquidsLeverM(
  liquids: readonly LiquidAboard[],
  displacementT: number,
  trimSlope: number,
): (heelRad: number) => number {
  const still = liquids.map((one) => atHeel(one, 0, trimSlope));
  return (heelRad) => {
    const cosine = Math.cos(heelRad);
    const sine = Math.sin(heelRad);
    return liquids.reduce((sum, liquid, k) => {
      const { yM, zM } = atHeel(liquid, Math.tan(heelRad), trimSlope);
      const share = (liquid.volumeM3 * liquid.densityTM3) / displacementT;
      return sum + share * ((yM - still[k]!.yM) * cosine + (zM - still[k]!.zM) * sine);
    }, 0);
  };
}

function atHeel(liquid: LiquidAboard, heelSlope: number, trimSlope: number): LiquidBody {
  return liquidAtRest(liquid.shape, liquid.volumeM3, { heelSlope, trimSlope });
}
