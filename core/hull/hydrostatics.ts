import { cutBodies } from './cut.ts';
import { draughtsOf, type Hull, immersedOf, waterplaneOf } from './hull.ts';
import { type ShipPoint, upwardNormal, type Waterline } from './waterline.ts';

/** Everything read from one waterline. Lengths m, areas m2, in ship axes; t for a density in t/m3. */
export interface Hydrostatics {
  readonly waterline: Waterline;
  readonly draughtAftM: number;
  readonly draughtForwardM: number;
  readonly draughtMeanM: number;
  readonly volumeM3: number;
  readonly displacementT: number;
  /** Centre of buoyancy: LCB is xM, KB its height. */
  readonly buoyancy: ShipPoint;
  readonly waterplaneAreaM2: number;
  /** Centre of flotation: LCF is xM. */
  readonly flotation: ShipPoint;
  readonly bmTransverseM: number;
  readonly bmLongitudinalM: number;
  /**
   * Height of the metacentres over the baseline, along the ship's z. Heeled, that of the transverse
   * one is where the buoyancy's line meets the line of the position beside it, not the centre plane.
   */
  readonly kmTransverseM: number;
  readonly kmLongitudinalM: number;
  /** Tonnes for a centimetre more draught. */
  readonly immersionTPerCm: number;
  /**
   * Moment to change the trim between perpendiculars by a centimetre, t*m. With the metacentric
   * height where a height of the centre of gravity is given, else with the metacentric radius.
   */
  readonly trimMomentTMPerCm: number;
}

/** The full set at any waterline under 90 degrees of heel; draughts are on the centre plane. */
export function hydrostaticsAt(
  hull: Hull,
  waterline: Waterline,
  densityTM3: number,
  kgM?: number,
): Hydrostatics {
  const cut = cutBodies(hull.bodies, waterline);
  const { volumeM3, centre } = immersedOf(cut);
  const plane = waterplaneOf(cut, waterline);
  const draughts = draughtsOf(hull, waterline);
  const up = upwardNormal(waterline);
  const displacementT = volumeM3 * densityTM3;
  const bmTransverseM = plane.transverseM4 / volumeM3;
  const bmLongitudinalM = plane.longitudinalM4 / volumeM3;
  const kmLongitudinalM = centre.zM + bmLongitudinalM * up.zM;
  const heightM = kgM === undefined ? bmLongitudinalM : kmLongitudinalM - kgM;
  return {
    waterline,
    draughtAftM: draughts.aftM,
    draughtForwardM: draughts.forwardM,
    draughtMeanM: draughts.meanM,
    volumeM3,
    displacementT,
    buoyancy: centre,
    waterplaneAreaM2: plane.areaM2,
    flotation: plane.centroid,
    bmTransverseM,
    bmLongitudinalM,
    kmTransverseM: centre.zM + bmTransverseM * up.zM,
    kmLongitudinalM,
    immersionTPerCm: (plane.areaM2 * densityTM3) / 100,
    trimMomentTMPerCm: (displacementT * heightM) / (100 * (hull.forwardXM - hull.aftXM)),
  };
}
