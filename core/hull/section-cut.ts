import type { Edges } from './outline-path.ts';
import { addCrossing, addCutParabola } from './parabola-cut.ts';

/**
 * Exact integrals over the part of a section below a straight waterline. A section is an outline of
 * straight edges and parabolas, given by nodes; the integrals run along the outline only (Green's
 * theorem with the waterline as an axis: what runs along it adds nothing).
 */

/** The waterline in the plane of a section: y cosineY + z cosineZ = offsetM, cosines of unit length. */
export interface SectionWaterline {
  readonly cosineY: number;
  readonly cosineZ: number;
  readonly offsetM: number;
}

/**
 * Where sums are added, in section axes turned with the water (u along the waterline to starboard,
 * v up from it): area, moment of u, moment of v, and of the waterline itself its length, its moment
 * and its second moment of u.
 */
export const SUMS = 6;

/** Room for the turned nodes of one section. */
export interface Scratch {
  readonly u: Float64Array;
  readonly v: Float64Array;
}

/** A section with its running integrals, as they lie in larger arrays. */
export interface SectionPlaces {
  readonly nodes: Float64Array;
  readonly prefix: Float64Array;
}

/**
 * Adds one side of a section to `sums`. Nodes lie at `at` in `places.nodes`, running integrals at
 * `prefixAt`; `side` is 1 for the side as given (starboard) and -1 for its mirror image. Edges
 * wholly below are taken together from the running integrals; only edges that meet the water are
 * worked out one by one.
 */
export function cutSection(
  edges: Edges,
  places: SectionPlaces,
  at: number,
  prefixAt: number,
  side: 1 | -1,
  waterline: SectionWaterline,
  scratch: Scratch,
  sums: Float64Array,
): void {
  const { u, v } = scratch;
  const { cosineY, cosineZ, offsetM } = waterline;
  const { nodes } = places;
  const count = u.length;
  for (let k = 0, n = at; k < count; k++, n += 2) {
    const y = side * nodes[n]!;
    const z = nodes[n + 1]!;
    u[k] = y * cosineZ - z * cosineY;
    v[k] = y * cosineY + z * cosineZ - offsetM;
  }
  // Whether the edges up to here belong to a run below the water that is not yet added.
  let running = false;
  for (let e = 0; e < edges.length; e += 3) {
    const a = edges[e]!;
    const m = edges[e + 1]!;
    const b = edges[e + 2]!;
    const va = v[a]!;
    const vb = v[b]!;
    const vm = m < 0 ? 0 : v[m]!;
    const handle = m < 0 ? va + vb : 2 * vm - (va + vb) / 2;
    if (va < 0 && vb < 0 && handle <= 0) {
      if (!running) addRunEnd(places, at, prefixAt, e, a, side, -side, waterline, sums);
      running = true;
      continue;
    }
    if (running) addRunEnd(places, at, prefixAt, e, a, side, side, waterline, sums);
    running = false;
    if (va >= 0 && vb >= 0 && handle >= 0) continue;
    if (m < 0) addStraight(u[a]!, va, u[b]!, vb, side, sums);
    else addCutParabola(u[a]!, va, u[m]!, vm, u[b]!, vb, side, sums);
  }
  if (running) {
    const last = edges[edges.length - 1]!;
    addRunEnd(places, at, prefixAt, edges.length, last, side, side, waterline, sums);
  }
}

/**
 * Adds, by `weight`, the integrals from the outline's beginning to one end of an edge. With w the
 * height over the origin and P, Q, R the running integrals of y dz, y2 dz and z2 dy, the integrals
 * of w du, w2 du and u w du are these closed forms (by parts).
 */
function addRunEnd(
  places: SectionPlaces,
  at: number,
  prefixAt: number,
  edge: number,
  node: number,
  side: number,
  weight: number,
  waterline: SectionWaterline,
  sums: Float64Array,
): void {
  const { cosineY: s, cosineZ: c, offsetM } = waterline;
  const y = side * places.nodes[at + 2 * node]!;
  const z = places.nodes[at + 2 * node + 1]!;
  const p = side * places.prefix[prefixAt + edge]!;
  const q = places.prefix[prefixAt + edge + 1]!;
  const r = side * places.prefix[prefixAt + edge + 2]!;
  const u = c * y - s * z;
  const w1 = (s * c * (y * y - z * z)) / 2 + c * c * y * z - p;
  const w2 =
    (s * s * c * y * y * y - c * c * s * z * z * z) / 3 + s * c * y * z * u - s * q + c * r;
  const uw =
    (s * c * (c * y * y * y + s * z * z * z)) / 3 +
    ((c * c - s * s) * y * z * u) / 2 -
    (c * q + s * r) / 2;
  sums[0] = sums[0]! - weight * (w1 - offsetM * u);
  sums[1] = sums[1]! - weight * (uw - (offsetM * u * u) / 2);
  sums[2] = sums[2]! - (weight * (w2 - 2 * offsetM * w1 + offsetM * offsetM * u)) / 2;
}

function addStraight(
  ua: number,
  va: number,
  ub: number,
  vb: number,
  side: number,
  sums: Float64Array,
): void {
  const t = va / (va - vb);
  const uc = ua + t * (ub - ua);
  if (va < 0) {
    addLine(ua, va, uc, 0, side, sums);
    addCrossing(uc, side, sums);
  } else {
    addLine(uc, 0, ub, vb, side, sums);
    addCrossing(uc, -side, sums);
  }
}

function addLine(
  ua: number,
  va: number,
  ub: number,
  vb: number,
  side: number,
  sums: Float64Array,
): void {
  const du = side * (ub - ua);
  sums[0] = sums[0]! - (du * (va + vb)) / 2;
  sums[1] = sums[1]! - (du * (ua * (2 * va + vb) + ub * (va + 2 * vb))) / 6;
  sums[2] = sums[2]! - (du * (va * va + va * vb + vb * vb)) / 6;
}
