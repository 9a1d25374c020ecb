import { type Body, intervalAt, nodeAt } from './body.ts';
import { type Cut, cutBodies } from './cut.ts';
import { draughtAtM, type ShipPoint, upwardNormal, type Waterline } from './waterline.ts';

/** Where water would come in. */
export interface Opening extends ShipPoint {
  readonly name: string;
  readonly closing: 'unprotected' | 'weathertight';
}

/** A body that can be cut by any waterline. Made by `make-hull.ts`. */
export interface Hull {
  readonly name: string;
  /** Fore and aft ends, metres from the after perpendicular. */
  readonly fromXM: number;
  readonly toXM: number;
  /** Perpendiculars: draughts and trim are stated there. */
  readonly aftXM: number;
  readonly forwardXM: number;
  readonly offsetsAre: 'moulded' | 'outside';
  readonly shellThicknessM: number;
  /** The hull proper; its deck edge is node `deckNode`. */
  readonly main: Body;
  readonly deckNode: number;
  /** All that displaces or floods, `main` first. */
  readonly bodies: readonly Body[];
  readonly openings: readonly Opening[];
}

/** What lies below the water, in ship axes. Nothing immersed has no centre: NaN. */
export interface Immersed {
  readonly volumeM3: number;
  readonly centre: ShipPoint;
}

/**
 * The water's surface inside the hull, a plane figure. Second moments are about axes through its
 * centroid in its own plane: `transverseM4` about the fore and aft axis (BM transverse is this over
 * the volume), `longitudinalM4` about the athwartships axis, `productM4` of the two.
 */
export interface Waterplane {
  readonly areaM2: number;
  readonly centroid: ShipPoint;
  readonly transverseM4: number;
  readonly longitudinalM4: number;
  readonly productM4: number;
}

/** Volume and centre below a waterline: section outlines integrated exactly, no small angles. */
export function immersed(hull: Hull, waterline: Waterline): Immersed {
  return immersedOf(cutBodies(hull.bodies, waterline));
}

/** The surface of the water inside the hull. Without one its centroid is NaN. */
export function waterplane(hull: Hull, waterline: Waterline): Waterplane {
  return waterplaneOf(cutBodies(hull.bodies, waterline), waterline);
}

export function immersedOf(cut: Cut): Immersed {
  const { volumeM3 } = cut;
  return {
    volumeM3,
    centre: {
      xM: cut.momentXM4 / volumeM3,
      yM: cut.momentYM4 / volumeM3,
      zM: cut.momentZM4 / volumeM3,
    },
  };
}

export function waterplaneOf(cut: Cut, waterline: Waterline): Waterplane {
  const { areaM2 } = cut;
  const up = upwardNormal(waterline);
  const level = Math.hypot(up.yM, up.zM);
  const [x, u] = [cut.areaXM3 / areaM2, cut.areaUM3 / areaM2];
  const [cosineY, cosineZ] = [up.yM / level, up.zM / level];
  const offset = (waterline.levelM - up.xM * x) / level;
  return {
    areaM2,
    centroid: {
      xM: x,
      yM: u * cosineZ + offset * cosineY,
      zM: -u * cosineY + offset * cosineZ,
    },
    transverseM4: cut.areaUuM4 - areaM2 * u * u,
    // Distances fore and aft in the plane are longer than x by the trim.
    longitudinalM4: (cut.areaXxM4 - areaM2 * x * x) / (level * level),
    productM4: (cut.areaXuM4 - areaM2 * x * u) / level,
  };
}

/** All that hull proper, appendages and superstructures displace when wholly immersed. */
export function wholeVolume(hull: Hull): Immersed {
  const reach = 4 * (hull.toXM - hull.fromXM) + 1000;
  return immersed(hull, { heelRad: 0, trimRad: 0, levelM: reach });
}

/** The deck edge at an x, starboard; null where there is no hull. */
export function deckEdgeAt(hull: Hull, xM: number): ShipPoint | null {
  const place = intervalAt(hull.main, xM);
  if (place === null) return null;
  const [yM, zM] = nodeAt(hull.main, place.interval, hull.deckNode, place.share);
  return { xM, yM, zM };
}

/** Draughts at the perpendiculars and their mean, on the centre plane. */
export function draughtsOf(
  hull: Pick<Hull, 'aftXM' | 'forwardXM'>,
  waterline: Waterline,
): { aftM: number; forwardM: number; meanM: number } {
  const [aftM, forwardM] = [
    draughtAtM(waterline, hull.aftXM),
    draughtAtM(waterline, hull.forwardXM),
  ];
  return { aftM, forwardM, meanM: (aftM + forwardM) / 2 };
}
