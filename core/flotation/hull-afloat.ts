import { type Hull, type Immersed, immersed, type Waterplane, waterplane } from '../hull/hull.ts';
import { type HullEvidence, type HullKnownBy, hullEvidenceAt } from '../hull/hull-evidence.ts';
import { knAt as hullKnAt } from '../hull/righting-lever.ts';
import type { Waterline } from '../hull/waterline.ts';
import { bracketedRoot } from '../numerics/root.ts';
import { checkPositive } from '../quantity/check.ts';
import type { Immersion } from './afloat.ts';
import { metacentreMovementM, rightingFrom } from './righting.ts';
import type { WaterSurface } from './water-surface.ts';

/** What is asked of a hull: volume and centre below a plane, and the plane's figure inside it. */
export interface CutHull {
  readonly immersed: (waterline: Waterline) => Immersed;
  readonly waterplane: (waterline: Waterline) => Waterplane;
  /** Levels between which any waterline of a test lies, from the baseline, m. */
  readonly depthM: number;
  /** KN at a volume and a trim upright, where the hull finds it with the trim free; else it is held. */
  readonly knM?: (volumeM3: number, trimSlope: number, heelRad: number) => number;
}

/** A vessel's hull or tables as the float and the exact equation need them. */
export interface HullAfloat {
  readonly immersionOf: (surface: WaterSurface) => Immersion;
  /** KN by heel at a volume and a trim upright. Null: tables that do not give it. */
  readonly knOf: ((volumeM3: number, trimSlope: number) => (heelRad: number) => number) | null;
  /** How well the hull is known, where it was measured ashore or spot-checked. */
  readonly evidenceAt?: (surface: WaterSurface, densityTM3: number) => HullEvidence;
}

/**
 * A hull of a file, as the float needs it: free to trim as she heels, resting upright at the trim
 * she has. `lengthM` between the perpendiculars of the waterline, the after one at x = 0.
 * `knownBy`: points it was made of and spot checks, which become causes of their own.
 */
export function hullAfloatOf(
  hull: Hull,
  lengthM: number,
  knownBy: HullKnownBy | null = null,
): HullAfloat {
  const cut: CutHull = {
    immersed: (waterline) => immersed(hull, waterline),
    waterplane: (waterline) => waterplane(hull, waterline),
    depthM: hull.toXM - hull.fromXM,
  };
  const about = new Map<string, { xM: number; zM: number; trimRad: number }>();
  const freeKnM = (volumeM3: number, trimSlope: number, heelRad: number): number => {
    const key = `${volumeM3} ${trimSlope}`;
    const known = about.get(key) ?? centreAt(cut, volumeM3, trimSlope);
    about.set(key, known);
    return hullKnAt(hull, volumeM3, heelRad, { freeAbout: known }, known).knM;
  };
  const afloat = hullAfloat({ ...cut, knM: freeKnM }, lengthM);
  if (knownBy === null) return afloat;
  return {
    ...afloat,
    evidenceAt: (surface, densityTM3) => {
      // the plane through her draughts: hog and a list are nothing to how well her lines are known
      const upright = waterlineOfSurface({ ...surface, heelSlope: 0, sagM: 0 }, lengthM);
      return hullEvidenceAt(hull, upright, densityTM3, knownBy);
    },
  };
}

/** She rests upright at this trim, her centre of gravity taken at the height of her buoyancy. */
function centreAt(
  cut: CutHull,
  volumeM3: number,
  trimSlope: number,
): { xM: number; zM: number; trimRad: number } {
  const trimRad = Math.atan(trimSlope);
  const levelM = levelFor(cut, volumeM3, 0, trimRad);
  const { centre } = cut.immersed({ heelRad: 0, trimRad, levelM });
  return { xM: centre.xM, zM: centre.zM, trimRad };
}

/** A hull that can be cut, as the float needs it. `lengthM` between perpendiculars. */
export function hullAfloat(hull: CutHull, lengthM: number): HullAfloat {
  checkPositive(lengthM, 'length between perpendiculars, m');
  const knOf = (volumeM3: number, trimSlope: number) => knAt(hull, volumeM3, trimSlope);
  return {
    immersionOf: (surface) => immersionAt(hull, surface, lengthM, knOf),
    knOf,
  };
}

/** A plane surface as the hull takes it: heel about her own x axis, trim of that axis. */
export function waterlineOfSurface(surface: WaterSurface, lengthM: number): Waterline {
  const heelRad = Math.atan(surface.heelSlope);
  const trimRad = Math.atan(surface.trimSlope * Math.cos(heelRad));
  const atOrigin = surface.middleM + (surface.trimSlope * lengthM) / 2;
  return { heelRad, trimRad, levelM: atOrigin * Math.cos(heelRad) * Math.cos(trimRad) };
}

/**
 * Hog or sag raises the plane by the mean of its bow over the waterplane, which gives the volume
 * to the second order of a few centimetres of sag; where in her length that volume comes on is
 * taken at the waterplane's centroid.
 */
function immersionAt(
  hull: CutHull,
  surface: WaterSurface,
  lengthM: number,
  knOf: (volumeM3: number, trimSlope: number) => (heelRad: number) => number,
): Immersion {
  const level = levelled(hull, surface, lengthM);
  const waterline = waterlineOfSurface(level, lengthM);
  const { volumeM3, centre } = hull.immersed(waterline);
  const upright = waterlineOfSurface({ ...level, heelSlope: 0 }, lengthM);
  const plane = hull.waterplane(upright);
  const below = hull.immersed(upright);
  const cosine = Math.cos(upright.trimRad);
  const bm = (plane.transverseM4 * cosine) / below.volumeM3;
  // rotation about an athwartship axis sees lengths along her own x: one more cosine squared
  const bmLongitudinal = (plane.longitudinalM4 * cosine ** 3) / below.volumeM3;
  return {
    volumeM3,
    lcbM: centre.xM,
    tcbM: centre.yM,
    vcbM: centre.zM,
    kmM: below.centre.zM + bm,
    kmLongitudinalM: below.centre.zM + bmLongitudinal,
    metacentreMovementM: () =>
      metacentreMovementM(rightingFrom(knOf(below.volumeM3, surface.trimSlope), () => 0)),
  };
}

function levelled(hull: CutHull, surface: WaterSurface, lengthM: number): WaterSurface {
  if (surface.sagM === 0) return surface;
  const flat = { ...surface, sagM: 0 };
  const { areaM2, centroid, longitudinalM4 } = hull.waterplane(waterlineOfSurface(flat, lengthM));
  const aside = longitudinalM4 / areaM2 + (centroid.xM - lengthM / 2) ** 2;
  const raisedM = surface.sagM * (1 - aside / (lengthM / 2) ** 2);
  return { ...flat, middleM: surface.middleM + raisedM };
}

function knAt(hull: CutHull, volumeM3: number, trimSlope: number): (heelRad: number) => number {
  checkPositive(volumeM3, 'volume, m3');
  const { knM } = hull;
  if (knM !== undefined) return (heelRad) => knM(volumeM3, trimSlope, heelRad);
  return (heelRad) => {
    const trimRad = Math.atan(trimSlope * Math.cos(heelRad));
    const levelM = levelFor(hull, volumeM3, heelRad, trimRad);
    const { centre } = hull.immersed({ heelRad, trimRad, levelM });
    return centre.yM * Math.cos(heelRad) + centre.zM * Math.sin(heelRad);
  };
}

function levelFor(hull: CutHull, volumeM3: number, heelRad: number, trimRad: number): number {
  const reach = 2 * hull.depthM;
  const over = (levelM: number) => hull.immersed({ heelRad, trimRad, levelM }).volumeM3 - volumeM3;
  return bracketedRoot(over, -reach, reach);
}
