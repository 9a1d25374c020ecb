import { Fault } from '../fault/fault.ts';
import { checkPositive } from '../quantity/check.ts';
import { type Cut, cutBodies, frameOf } from './cut.ts';
import { type Hull, waterplaneOf, wholeVolume } from './hull.ts';
import { TrimBracket } from './trim-bracket.ts';
import type { ShipPoint, Waterline } from './waterline.ts';

/** What floats: its mass and its centre of gravity in ship axes. */
export interface Weight {
  readonly massT: number;
  readonly centre: ShipPoint;
}

/** How trim is found at a given heel: held, or such that the vessel rests fore and aft. */
export type Trimming =
  | { readonly fixedTrimRad: number }
  | { readonly freeAbout: { readonly xM: number; readonly zM: number; readonly yM?: number } };

/** A position to begin at: that of a heel beside it saves half the way. */
export interface Near {
  readonly trimRad: number;
  readonly levelM?: number;
}

/** Volumes agree to this share, angles of rest to this lever over the length. */
const VOLUME_SHARE = 1e-12;
const LEVER_SHARE = 1e-11;
const MOST_STEPS = 60;
const MOST_TURN_RAD = 0.15;
/**
 * Where an edge of the hull passes a station the integrals along x jump by some micrometres of lever:
 * she rests between two trims. After so many steps they are halved until they are one. rad.
 */
const BOUNCED_AFTER = 20;
const EDGE_RAD = 1e-11;
/** Out of a position in which she balances but does not rest; of two sides, to starboard. */
const AWAY = { heel: 0.02, trim: 0.003 };

/**
 * Where the vessel rests: heel, trim and level at which her weight is carried and her centre of
 * buoyancy lies under her centre of gravity. Exact at any heel; begins upright, or at `near`. A
 * vessel that does not rest upright lolls to starboard.
 * `densityTM3` in t/m3. Throws `hull-sinks`, `hull-no-rest`.
 */
export function restingWaterline(
  hull: Hull,
  weight: Weight,
  densityTM3: number,
  near: { heelRad: number; trimRad: number } = { heelRad: 0, trimRad: 0 },
): Waterline {
  const volumeM3 = checkPositive(weight.massT, 'massT') / checkPositive(densityTM3, 'densityTM3');
  const { centre } = weight;
  return rested(hull, volumeM3, centre, near, { heel: true, trim: true }).waterline;
}

/**
 * The waterline at a given heel that carries a volume: with a held trim, or with free trim, when her
 * centre of buoyancy lies under the given centre as seen from the side. Throws as above.
 */
export function waterlineAtHeel(
  hull: Hull,
  volumeM3: number,
  heelRad: number,
  trimming: Trimming,
  near: Near = { trimRad: 0 },
): Waterline {
  return afloatAtHeel(hull, volumeM3, heelRad, trimming, near).waterline;
}

/** The same with what lies below it. */
export function afloatAtHeel(
  hull: Hull,
  volumeM3: number,
  heelRad: number,
  trimming: Trimming,
  near: Near = { trimRad: 0 },
): { waterline: Waterline; cut: Cut } {
  checkPositive(volumeM3, 'volumeM3');
  if ('fixedTrimRad' in trimming) {
    const held = { ...near, heelRad, trimRad: trimming.fixedTrimRad };
    return rested(hull, volumeM3, null, held, { heel: false, trim: false });
  }
  const { xM, yM = 0, zM } = trimming.freeAbout;
  const centre = { xM, yM, zM };
  return rested(hull, volumeM3, centre, { ...near, heelRad }, { heel: false, trim: true });
}

/** The level at which a volume is immersed at a given heel and trim, and the cut there. */
function levelled(
  hull: Hull,
  volumeM3: number,
  heelRad: number,
  trimRad: number,
  nearM: number | null,
): { waterline: Waterline; cut: Cut } {
  const reach = extent(hull, heelRad, trimRad);
  let [low, high] = reach;
  let levelM = nearM !== null && nearM > low && nearM < high ? nearM : (low + high) / 2;
  for (let count = 0; count < 4 * MOST_STEPS; count++) {
    const waterline = { heelRad, trimRad, levelM };
    const cut = cutBodies(hull.bodies, waterline);
    const excess = cut.volumeM3 - volumeM3;
    if (Math.abs(excess) <= VOLUME_SHARE * volumeM3 || high - low < 1e-13 * (reach[1] - reach[0])) {
      return { waterline, cut };
    }
    if (excess > 0) high = levelM;
    else low = levelM;
    const tried = levelM - excess / cut.areaM2;
    levelM = tried > low && tried < high ? tried : (low + high) / 2;
  }
  throw new Fault('no-convergence', 'level', `volume ${volumeM3} m3`);
}

/** Lowest and highest point of the hull along the world's vertical, with a little to spare. */
function extent(hull: Hull, heelRad: number, trimRad: number): [number, number] {
  const { up } = frameOf({ heelRad, trimRad, levelM: 0 });
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const body of hull.bodies) {
    const { bounds } = body.sections;
    const ends = [body.xM[0]! * up.xM, body.xM.at(-1)! * up.xM];
    for (let s = 0; s < bounds.length; s += 3) {
      const across = Math.abs(up.yM) * bounds[s]!;
      const [foot, top] = [up.zM * bounds[s + 1]!, up.zM * bounds[s + 2]!];
      low = Math.min(low, Math.min(foot, top) - across + Math.min(...ends));
      high = Math.max(high, Math.max(foot, top) + across + Math.max(...ends));
    }
  }
  const spare = 0.05 * (high - low);
  return [low - spare, high + spare];
}

interface Levers {
  /** Moments of the immersed volume about the centre that turn her in heel and in trim. */
  readonly heel: number;
  readonly trim: number;
}

/** Derivative of `up` by heel over the cosine of trim, and by trim. */
function turning(heelRad: number, trimRad: number): { heel: ShipPoint; trim: ShipPoint } {
  const [sh, ch] = [Math.sin(heelRad), Math.cos(heelRad)];
  const [st, ct] = [Math.sin(trimRad), Math.cos(trimRad)];
  return {
    heel: { xM: 0, yM: -ch, zM: -sh },
    trim: { xM: ct, yM: sh * st, zM: -ch * st },
  };
}

/**
 * Newton's method on heel and trim, the level being found exactly at each step; the slopes are the
 * stiffnesses of hydrostatics: volume under centre, and second moments of the water's surface.
 */
function rested(
  hull: Hull,
  volumeM3: number,
  centre: ShipPoint | null,
  near: Near & { heelRad: number },
  free: { heel: boolean; trim: boolean },
): { waterline: Waterline; cut: Cut } {
  const whole = wholeVolume(hull).volumeM3;
  if (!(volumeM3 < whole)) {
    throw new Fault('hull-sinks', hull.name, `${volumeM3} m3 to carry, ${whole} m3 in all`);
  }
  const most = LEVER_SHARE * volumeM3 * (hull.toXM - hull.fromXM);
  let { heelRad, trimRad } = near;
  let level: number | null = near.levelM ?? null;
  const bracket = new TrimBracket();
  for (let count = 0; count < MOST_STEPS; count++) {
    const { waterline, cut } = levelled(hull, volumeM3, heelRad, trimRad, level);
    if (centre === null) return { waterline, cut };
    const levers = leversOf(cut, centre, heelRad, trimRad);
    const stiffness = stiffnessOf(cut, waterline, centre);
    const settled =
      (!free.heel || Math.abs(levers.heel) <= most) &&
      (!free.trim || Math.abs(levers.trim) <= most);
    if (settled && isStable(stiffness, free)) return { waterline, cut };
    bracket.see(trimRad, levers.trim);
    const width = free.heel || count < BOUNCED_AFTER ? Number.NaN : bracket.widthRad;
    if (width > 0 && width < EDGE_RAD) return { waterline, cut };
    const step = settled
      ? AWAY
      : width > 0 && width < MOST_TURN_RAD
        ? { heel: 0, trim: bracket.middleRad - trimRad }
        : stepOf(stiffness, levers, free);
    heelRad += step.heel;
    trimRad += step.trim;
    level = levelAfter(waterline, cut, heelRad, trimRad);
  }
  throw new Fault(
    'hull-no-rest',
    hull.name,
    `after ${MOST_STEPS} steps at heel ${heelRad}, trim ${trimRad} rad`,
  );
}

/** The level that keeps the volume to first order: the water turns about its surface's centroid. */
function levelAfter(waterline: Waterline, cut: Cut, heelRad: number, trimRad: number): number {
  const { centroid } = waterplaneOf(cut, waterline);
  const { up } = frameOf({ heelRad, trimRad, levelM: 0 });
  return dot(up, centroid);
}

function leversOf(cut: Cut, centre: ShipPoint, heelRad: number, trimRad: number): Levers {
  const to = turning(heelRad, trimRad);
  const { volumeM3: v } = cut;
  const arm: ShipPoint = {
    xM: cut.momentXM4 - v * centre.xM,
    yM: cut.momentYM4 - v * centre.yM,
    zM: cut.momentZM4 - v * centre.zM,
  };
  return { heel: dot(arm, to.heel), trim: dot(arm, to.trim) };
}

function dot(a: ShipPoint, b: ShipPoint): number {
  return a.xM * b.xM + a.yM * b.yM + a.zM * b.zM;
}

interface Stiffness {
  /** Of the lever in heel by heel and by trim, of the lever in trim by heel and by trim. */
  readonly hh: number;
  readonly ht: number;
  readonly th: number;
  readonly tt: number;
}

function isStable({ hh, ht, th, tt }: Stiffness, free: { heel: boolean; trim: boolean }): boolean {
  if (!free.heel) return !free.trim || tt < 0;
  return hh < 0 && tt < 0 && hh * tt - ht * th > 0;
}

/** Slopes of the two levers by the two turns, at constant volume. */
function stiffnessOf(cut: Cut, waterline: Waterline, centre: ShipPoint): Stiffness {
  const { heelRad, trimRad } = waterline;
  const frame = frameOf(waterline);
  const to = turning(heelRad, trimRad);
  const area = cut.areaM2;
  const [x, u] = [cut.areaXM3 / area, cut.areaUM3 / area];
  const [xx, xu, uu] = [
    cut.areaXxM4 - area * x * x,
    cut.areaXuM4 - area * x * u,
    cut.areaUuM4 - area * u * u,
  ];
  // Distances on the surface along the two turns: from its centroid, `to . p` is this much in x and u.
  const inPlane = (turn: ShipPoint) => {
    const drop = -frame.up.xM / frame.level;
    return {
      x: turn.xM + drop * (turn.yM * frame.cosineY + turn.zM * frame.cosineZ),
      u: turn.yM * frame.cosineZ - turn.zM * frame.cosineY,
    };
  };
  const [h, t] = [inPlane(to.heel), inPlane(to.trim)];
  const second = (a: typeof h, b: typeof h) =>
    a.x * b.x * xx + (a.x * b.u + a.u * b.x) * xu + a.u * b.u * uu;
  const { volumeM3: v } = cut;
  const arm: ShipPoint = {
    xM: cut.momentXM4 - v * centre.xM,
    yM: cut.momentYM4 - v * centre.yM,
    zM: cut.momentZM4 - v * centre.zM,
  };
  const [sh, ch] = [Math.sin(heelRad), Math.cos(heelRad)];
  const [st, ct] = [Math.sin(trimRad), Math.cos(trimRad)];
  // Turning moves the water by -(d up . p); `up` turns by cos(trim) for a unit of heel.
  return {
    hh: -ct * second(h, h) + dot(arm, { xM: 0, yM: sh, zM: -ch }),
    ht: -second(h, t),
    th: -ct * second(h, t) + dot(arm, { xM: 0, yM: ch * st, zM: sh * st }),
    tt: -second(t, t) + dot(arm, { xM: -st, yM: sh * ct, zM: -ch * ct }),
  };
}

function stepOf(
  s: Stiffness,
  levers: Levers,
  free: { heel: boolean; trim: boolean },
): { heel: number; trim: number } {
  // Both slopes are negative where she is stable; where one is not, the lever's own way is taken.
  const down = (lever: number, slope: number) =>
    limited(slope < 0 ? -lever / slope : Math.sign(lever) * MOST_TURN_RAD);
  if (!free.heel) return { heel: 0, trim: down(levers.trim, s.tt) };
  if (!isStable(s, free)) {
    return { heel: down(levers.heel, s.hh), trim: down(levers.trim, s.tt) };
  }
  const determinant = s.hh * s.tt - s.ht * s.th;
  return {
    heel: limited((levers.trim * s.ht - levers.heel * s.tt) / determinant),
    trim: limited((levers.heel * s.th - levers.trim * s.hh) / determinant),
  };
}

function limited(step: number): number {
  return Math.max(-MOST_TURN_RAD, Math.min(MOST_TURN_RAD, step));
}
