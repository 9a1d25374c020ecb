import { Fault } from '../fault/fault.ts';
import { checkFinite } from '../quantity/check.ts';

/**
 * Still water seen from the ship: a plane in ship axes (x forward of the after perpendicular, y to
 * starboard, z up from the baseline, metres). Heel positive starboard down, trim positive by the
 * stern, any heel to 180 degrees. A point is immersed where up . point <= levelM, `up` being the
 * world's upward unit normal (see `upwardNormal`). `trimRad` is the angle of the ship's x axis over
 * the horizontal, heel turns about that axis; nothing is small.
 */
export interface Waterline {
  readonly heelRad: number;
  readonly trimRad: number;
  /** Distance of the water's surface from the origin of the ship axes, along `up`. */
  readonly levelM: number;
}

/** A point or direction in ship axes, metres. */
export interface ShipPoint {
  readonly xM: number;
  readonly yM: number;
  readonly zM: number;
}

/** A depth of water measured from the baseline along the ship's own z, on the centre plane. */
export interface DraughtAt {
  readonly xM: number;
  readonly draughtM: number;
}

/** The world's upward unit normal in ship axes: (sin trim, -sin heel cos trim, cos heel cos trim). */
export function upwardNormal(waterline: Pick<Waterline, 'heelRad' | 'trimRad'>): ShipPoint {
  const level = Math.cos(waterline.trimRad);
  return {
    xM: Math.sin(waterline.trimRad),
    yM: -Math.sin(waterline.heelRad) * level,
    zM: Math.cos(waterline.heelRad) * level,
  };
}

/** Height of a point over the water, metres, along the vertical of the world; negative immersed. */
export function heightOverWaterM(waterline: Waterline, point: ShipPoint): number {
  const up = upwardNormal(waterline);
  return up.xM * point.xM + up.yM * point.yM + up.zM * point.zM - waterline.levelM;
}

/** Upright and on an even keel at a draught. */
export function waterlineAtDraught(draughtM: number): Waterline {
  return { heelRad: 0, trimRad: 0, levelM: checkFinite(draughtM, 'draughtM') };
}

/**
 * The waterline through two draughts on the centre plane, at a heel under 90 degrees. Throws
 * `input-contradiction` for draughts at one place, `input-range` at 90 degrees and over.
 */
export function waterlineFromDraughts(first: DraughtAt, second: DraughtAt, heelRad = 0): Waterline {
  for (const { xM, draughtM } of [first, second]) {
    checkFinite(xM, 'draught: xM');
    checkFinite(draughtM, 'draught: draughtM');
  }
  checkFinite(heelRad, 'heelRad');
  if (first.xM === second.xM) {
    throw new Fault('input-contradiction', 'draughts', `two draughts at x ${first.xM} m`);
  }
  const cosine = Math.cos(heelRad);
  if (cosine <= 0) {
    throw new Fault('input-range', 'heelRad', `${heelRad}: no draughts at 90 degrees and over`);
  }
  const slope = (second.draughtM - first.draughtM) / (second.xM - first.xM);
  const trimRad = Math.atan(-slope * cosine);
  const levelM = first.draughtM * cosine * Math.cos(trimRad) + first.xM * Math.sin(trimRad);
  return { heelRad, trimRad, levelM };
}

/**
 * Height of the water's surface over the baseline along the ship's z at (x, y): the draught there
 * when y is 0. Throws `input-range` when that line does not meet the water (heel of 90 degrees).
 */
export function draughtAtM(waterline: Waterline, xM: number, yM = 0): number {
  const up = upwardNormal(waterline);
  if (Math.abs(up.zM) < 1e-12) {
    throw new Fault(
      'input-range',
      'heelRad',
      `${waterline.heelRad}: her z lies in the water's plane`,
    );
  }
  return (waterline.levelM - up.xM * xM - up.yM * yM) / up.zM;
}
