import type { Body } from './body.ts';
import { sectionAt } from './body.ts';
import { breaksOf, cutBodies, frameOf } from './cut.ts';
import { gaussRule } from './gauss.ts';
import { type Hull, immersed, immersedOf, waterplaneOf } from './hull.ts';
import { knAt } from './righting-lever.ts';
import { draughtAtM, type Waterline } from './waterline.ts';

/*
 * c2, the movement of the metacentre: GM from one shift (moment over displacement and tangent) reads
 * GM + c2 tan2(heel). Half of BM for a wall-sided vessel, negative where she loses waterplane as she
 * heels.
 */

/** Heels of the exact way, radians: small enough for a series, large enough for the digits of KN. */
const SMALL_RAD = 0.03;

/**
 * c2 from the exact KN: (KN / sin - KM) / tan2 at two small heels, carried on to none (Richardson).
 * `trim` says whether she keeps her trim or trims freely as she heels, her centre of gravity lying
 * `kgM` high (her centre of buoyancy's height where it is not given).
 */
export function metacentreMovementByKnM(
  hull: Hull,
  upright: Waterline,
  trim: 'fixed' | 'free' = 'free',
  kgM?: number,
): number {
  const cut = cutBodies(hull.bodies, upright);
  const { volumeM3, centre } = immersedOf(cut);
  const plane = waterplaneOf(cut, upright);
  const cosine = Math.cos(upright.trimRad);
  const kmM = centre.zM + (plane.transverseM4 / volumeM3) * cosine;
  const zM = kgM ?? centre.zM;
  // She rests at this trim, so her centre of gravity lies over the centre of buoyancy.
  const xM = centre.xM + (zM - centre.zM) * Math.tan(upright.trimRad);
  const trimming = trim === 'fixed' ? { fixedTrimRad: upright.trimRad } : { freeAbout: { xM, zM } };
  const movement = (heelRad: number) => {
    const { knM } = knAt(hull, volumeM3, heelRad, trimming, upright);
    return (knM / Math.sin(heelRad) - kmM) / Math.tan(heelRad) ** 2;
  };
  return (4 * movement(SMALL_RAD) - movement(2 * SMALL_RAD)) / 3;
}

/**
 * c2 by its integral over the upright waterline, trim kept:
 * 1/(3V) {integral [b3 (1 + 4 t2) + k b4] dx - 3 (integral t b2 dx)2 / integral b dx}, b the
 * half-breadth, t = dy/dz and k = d2y/dz2 of the outline there (series of the exact equation of heel
 * to the third order; our own derivation). Where a knuckle line passes through the water, k is a
 * sudden change of t at one x: it adds that change times b4 over the line's steepness dz/dx.
 */
export function metacentreMovementByIntegralM(hull: Hull, upright: Waterline): number {
  const sums = { cubic: 0, moment: 0, area: 0 };
  for (const body of hull.bodies) addBody(body, upright, sums);
  const { volumeM3 } = immersed(hull, upright);
  return (sums.cubic - (3 * sums.moment ** 2) / sums.area) / (3 * volumeM3);
}

const RULE = gaussRule(5);

function addBody(
  body: Body,
  upright: Waterline,
  sums: { cubic: number; moment: number; area: number },
): void {
  const frame = frameOf(upright);
  const nodes = new Float64Array(2 * body.nodes);
  for (let interval = 0; interval + 1 < body.xM.length; interval++) {
    const step = body.xM[interval + 1]! - body.xM[interval]!;
    if (step === 0) continue;
    const breaks = breaksOf(body, interval, frame, upright.levelM);
    for (const share of breaks) sums.cubic += body.sign * atKnuckle(body, interval, share, upright);
    const ends = [0, ...breaks, 1];
    for (let piece = 0; piece + 1 < ends.length; piece++) {
      const [from, to] = [ends[piece]!, ends[piece + 1]!];
      RULE.at.forEach((at, k) => {
        const share = from + (to - from) * at;
        sectionAt(body, interval, share, nodes, 0);
        const xM = body.xM[interval]! + share * step;
        const zM = (upright.levelM - frame.up.xM * xM) / frame.up.zM;
        const weight = body.sign * RULE.weight[k]! * (to - from) * step;
        for (const { way, b, slope, bend } of crossings(body, nodes, zM)) {
          const w = way * weight;
          sums.cubic += w * (b ** 3 * (1 + 4 * slope * slope) + bend * b ** 4);
          sums.moment += w * slope * b * b;
          sums.area += w * b;
        }
      });
    }
  }
}

/** How far to both sides of a knuckle the outline is looked at, as a share of the interval. */
const BESIDE = 1e-6;

/**
 * What the sudden change of slope adds where a knuckle line passes through the water at x: the
 * change from below to above it, times b4, over the steepness of the line against the water. The
 * outline's slope jumps the same way whichever way x is gone.
 */
function atKnuckle(body: Body, interval: number, share: number, upright: Waterline): number {
  const step = body.xM[interval + 1]! - body.xM[interval]!;
  const slopes = [share - BESIDE, share + BESIDE].map((at) => {
    const nodes = new Float64Array(2 * body.nodes);
    sectionAt(body, interval, at, nodes, 0);
    const zM = draughtAtM(upright, body.xM[interval]! + at * step);
    return { nodes, found: crossings(body, nodes, zM), zM };
  });
  const [before, after] = slopes as [(typeof slopes)[number], (typeof slopes)[number]];
  const [a, b] = [before.found[0], after.found[0]];
  // The water's line ends here instead of passing a knuckle: nothing is left of it to turn.
  if (a === undefined || b === undefined || before.found.length !== after.found.length) return 0;
  const node = body.corners.reduce((near, one) =>
    Math.abs(before.nodes[2 * one + 1]! - before.zM) <
    Math.abs(before.nodes[2 * near + 1]! - before.zM)
      ? one
      : near,
  );
  const rise =
    (after.nodes[2 * node + 1]! - after.zM - (before.nodes[2 * node + 1]! - before.zM)) /
    (2 * BESIDE * step);
  // Going forward past a rising line the water comes to lie below it.
  const change = rise > 0 ? a.slope - b.slope : b.slope - a.slope;
  return (change * b.b ** 4) / Math.abs(rise);
}

interface Crossing {
  /** 1 where the outline passes up through the water, -1 down. */
  readonly way: 1 | -1;
  readonly b: number;
  readonly slope: number;
  readonly bend: number;
}

function crossings(body: Body, nodes: Float64Array, zM: number): Crossing[] {
  const found: Crossing[] = [];
  const { edges } = body;
  for (let e = 0; e < edges.length; e += 3) {
    const [a, m, b] = [edges[e]!, edges[e + 1]!, edges[e + 2]!];
    const [za, zb] = [nodes[2 * a + 1]! - zM, nodes[2 * b + 1]! - zM];
    if (za < 0 === zb < 0) continue;
    const [ya, yb] = [nodes[2 * a]!, nodes[2 * b]!];
    const [ym, middle] =
      m < 0 ? [(ya + yb) / 2, (za + zb) / 2] : [nodes[2 * m]!, nodes[2 * m + 1]! - zM];
    const y = parabola(ya, ym, yb);
    const z = parabola(za, middle, zb);
    const t = rootOf(z);
    const [dy, dz] = [y.b + 2 * y.a * t, z.b + 2 * z.a * t];
    found.push({
      way: za < 0 ? 1 : -1,
      b: y.c + t * (y.b + t * y.a),
      slope: dy / dz,
      bend: (2 * y.a * dz - 2 * z.a * dy) / dz ** 3,
    });
  }
  return found;
}

/** c + b t + a t2 through values at 0, 1/2 and 1. */
function parabola(from: number, middle: number, to: number): { c: number; b: number; a: number } {
  return { c: from, b: 4 * middle - 3 * from - to, a: 2 * (from + to - 2 * middle) };
}

/** The one root between 0 and 1 of a parabola whose ends differ in sign. */
function rootOf({ c, b, a }: { c: number; b: number; a: number }): number {
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(Math.max(0, b * b - 4 * a * c))) / 2;
  const [first, second] = [a === 0 ? Number.POSITIVE_INFINITY : q / a, c / q];
  return first >= 0 && first <= 1 ? first : second;
}
