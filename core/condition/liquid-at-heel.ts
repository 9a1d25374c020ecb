import type { ShipPoint } from '../hull/waterline.ts';
import type { LiquidAboard } from '../reduction/liquids.ts';
import { liquidAtRest, type TankShape, wholeTank } from '../survey/tank-liquid.ts';

/**
 * Liquids as they lie when she heels and trims: each surface level in the world. The outlines are
 * turned by the heel first, so that 90 degrees is no limit. Heel positive starboard down, trim
 * positive by the stern, as in `core/hull/waterline.ts`.
 */
export interface LiquidsMoved {
  /** Sum of mass times movement of the centroid since upright and on an even keel, t m, ship axes. */
  readonly xTM: number;
  readonly yTM: number;
  readonly zTM: number;
}

/** Centroid of a liquid at rest, ship axes. An empty tank has none: null. */
export function liquidCentre(
  { shape, volumeM3 }: Pick<LiquidAboard, 'shape' | 'volumeM3'>,
  heelRad: number,
  trimRad: number,
): ShipPoint | null {
  const [sine, cosine] = [Math.sin(heelRad), Math.cos(heelRad)];
  const turned: TankShape = {
    sections: shape.sections.map(({ xM, outline }) => ({
      xM,
      outline: outline.map(({ yM, zM }) => ({
        yM: yM * cosine + zM * sine,
        zM: zM * cosine - yM * sine,
      })),
    })),
  };
  const body = liquidAtRest(turned, volumeM3, { heelSlope: 0, trimSlope: Math.tan(trimRad) });
  if (body.volumeM3 === 0) return null;
  return {
    xM: body.xM,
    yM: body.yM * cosine - body.zM * sine,
    zM: body.zM * cosine + body.yM * sine,
  };
}

/** How the liquids' moments move with heel and trim; full and empty tanks move nothing. */
export function liquidsMoving(
  liquids: readonly LiquidAboard[],
): (heelRad: number, trimRad: number) => LiquidsMoved {
  const slack = liquids.flatMap((one) => {
    const still = liquidCentre(one, 0, 0);
    const capacityM3 = wholeTank(one.shape).volumeM3;
    return still === null || one.volumeM3 >= capacityM3 * (1 - 1e-9) ? [] : [{ one, still }];
  });
  return (heelRad, trimRad) => {
    let [xTM, yTM, zTM] = [0, 0, 0];
    for (const { one, still } of slack) {
      const massT = one.volumeM3 * one.densityTM3;
      const lies = liquidCentre(one, heelRad, trimRad)!;
      xTM += massT * (lies.xM - still.xM);
      yTM += massT * (lies.yM - still.yM);
      zTM += massT * (lies.zM - still.zM);
    }
    return { xTM, yTM, zTM };
  };
}
