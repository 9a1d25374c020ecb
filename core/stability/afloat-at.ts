import type { LiquidsMoved } from '../condition/liquid-at-heel.ts';
import { Fault } from '../fault/fault.ts';
import { type Near, waterlineAtHeel } from '../hull/equilibrium.ts';
import { type Hull, immersed } from '../hull/hull.ts';
import type { ShipPoint, Waterline } from '../hull/waterline.ts';

/** What floats: hull, weight, and liquids that go where she heels and trims. */
export interface Floating {
  readonly hull: Hull;
  readonly volumeM3: number;
  readonly displacementT: number;
  /** Centre of gravity with the liquids as they lie upright and on an even keel. */
  readonly centre: ShipPoint;
  readonly moving: (heelRad: number, trimRad: number) => LiquidsMoved;
}

/** She at one heel, free to trim, nothing but the heel being held. Levers in m, of her own axes. */
export interface AfloatAt {
  readonly heelRad: number;
  readonly waterline: Waterline;
  /** KN: y_B cos heel + z_B sin heel. */
  readonly knM: number;
  /** What the liquids' movement takes from the righting lever: (y cos + z sin) of it over the mass. */
  readonly liquidsM: number;
}

/** Over the length of a ship a thousandth of a millimetre or two. */
const TRIM_RAD = 1e-7;
const MOST_TURNS = 40;

/**
 * Trim and liquids are found together: liquids lie by the trim, which moves with them. Throws
 * `hull-sinks`, `hull-no-rest`, `no-convergence`.
 */
export function afloatAt(floating: Floating, heelRad: number, near?: Near): AfloatAt {
  const { hull, volumeM3, displacementT, centre, moving } = floating;
  let before: Near = near ?? { trimRad: 0 };
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const moved = moving(heelRad, before.trimRad);
    const freeAbout = {
      xM: centre.xM + moved.xTM / displacementT,
      yM: centre.yM + moved.yTM / displacementT,
      zM: centre.zM + moved.zTM / displacementT,
    };
    const waterline = waterlineAtHeel(hull, volumeM3, heelRad, { freeAbout }, before);
    const none = moved.xTM === 0 && moved.yTM === 0 && moved.zTM === 0;
    if (none || Math.abs(waterline.trimRad - before.trimRad) < TRIM_RAD) {
      const { centre: buoyancy } = immersed(hull, waterline);
      const [sine, cosine] = [Math.sin(heelRad), Math.cos(heelRad)];
      return {
        heelRad,
        waterline,
        knM: buoyancy.yM * cosine + buoyancy.zM * sine,
        liquidsM: (moved.yTM * cosine + moved.zTM * sine) / displacementT,
      };
    }
    before = waterline;
  }
  throw new Fault('no-convergence', 'trim with the liquids', `heel ${heelRad} rad`);
}
