/**
 * Exact integrals over the part of a section below a straight waterline. A section is an outline of
 * straight edges and parabolas, given by nodes; the integrals run along the outline only (Green's
 * theorem with the waterline as an axis: what runs along it adds nothing).
 */

/**
 * Edges of a section: node numbers from, by, to; `by` is -1 for a straight edge. Each begins where the
 * one before it ends.
 */
export type Edges = Int32Array;

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

/** Points on a parabola for three-point Gauss quadrature, exact for what is summed here. */
const GAUSS_T = [0.5 - Math.sqrt(0.15), 0.5, 0.5 + Math.sqrt(0.15)];
const GAUSS_WEIGHT = [5 / 18, 8 / 18, 5 / 18];
/** Value and slope at each of those points by the three nodes of a parabola. */
const VALUE = GAUSS_T.map((t) => [(1 - t) * (1 - 2 * t), 4 * t * (1 - t), t * (2 * t - 1)]);
const SLOPE = GAUSS_T.map((t) => [4 * t - 3, 4 - 8 * t, 4 * t - 1]);
const [V0, V1, V2] = VALUE as [number[], number[], number[]];
const [D0, D1, D2] = SLOPE as [number[], number[], number[]];
const [A0, A1, A2, B0, B1, B2, C0, C1, C2] = [...V0, ...V1, ...V2] as Nine;
const [P0, P1, P2, Q0, Q1, Q2, R0, R1, R2] = [...D0, ...D1, ...D2] as Nine;
const [W0, W1] = GAUSS_WEIGHT as [number, number];
type Nine = [number, number, number, number, number, number, number, number, number];

/** Integrals along the outline from its beginning to each end of an edge: y dz, y2 dz, z2 dy. */
export const PREFIX = 3;

/** Room for the turned nodes of one section. */
export interface Scratch {
  readonly u: Float64Array;
  readonly v: Float64Array;
}

/** Writes the running integrals of a section's outline; edge after edge they make one path. */
export function writePrefix(
  edges: Edges,
  nodes: Float64Array,
  at: number,
  out: Float64Array,
  outAt: number,
): void {
  let p = 0;
  let q = 0;
  let r = 0;
  out[outAt] = 0;
  out[outAt + 1] = 0;
  out[outAt + 2] = 0;
  for (let e = 0, o = outAt + PREFIX; e < edges.length; e += 3, o += PREFIX) {
    const a = at + 2 * edges[e]!;
    const m = edges[e + 1]!;
    const b = at + 2 * edges[e + 2]!;
    const ya = nodes[a]!;
    const za = nodes[a + 1]!;
    const yb = nodes[b]!;
    const zb = nodes[b + 1]!;
    if (m < 0) {
      const dz = zb - za;
      p += ((ya + yb) / 2) * dz;
      q += ((ya * ya + ya * yb + yb * yb) / 3) * dz;
      r += ((za * za + za * zb + zb * zb) / 3) * (yb - ya);
    } else {
      const ym = nodes[at + 2 * m]!;
      const zm = nodes[at + 2 * m + 1]!;
      const y0 = A0 * ya + A1 * ym + A2 * yb;
      const y1 = B0 * ya + B1 * ym + B2 * yb;
      const y2 = C0 * ya + C1 * ym + C2 * yb;
      const z0 = A0 * za + A1 * zm + A2 * zb;
      const z1 = B0 * za + B1 * zm + B2 * zb;
      const z2 = C0 * za + C1 * zm + C2 * zb;
      const f0 = W0 * y0 * (P0 * za + P1 * zm + P2 * zb);
      const f1 = W1 * y1 * (Q0 * za + Q1 * zm + Q2 * zb);
      const f2 = W0 * y2 * (R0 * za + R1 * zm + R2 * zb);
      p += f0 + f1 + f2;
      q += f0 * y0 + f1 * y1 + f2 * y2;
      r +=
        W0 * z0 * z0 * (P0 * ya + P1 * ym + P2 * yb) +
        W1 * z1 * z1 * (Q0 * ya + Q1 * ym + Q2 * yb) +
        W0 * z2 * z2 * (R0 * ya + R1 * ym + R2 * yb);
    }
    out[o] = p;
    out[o + 1] = q;
    out[o + 2] = r;
  }
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

/** The waterline ends here: on its starboard end with weight 1, on its port end with -1. */
function addCrossing(u: number, weight: number, sums: Float64Array): void {
  sums[3] = sums[3]! + weight * u;
  sums[4] = sums[4]! + (weight * u * u) / 2;
  sums[5] = sums[5]! + (weight * u * u * u) / 3;
}

function addWholeParabola(
  ua: number,
  va: number,
  um: number,
  vm: number,
  ub: number,
  vb: number,
  side: number,
  sums: Float64Array,
): void {
  const u0 = A0 * ua + A1 * um + A2 * ub;
  const u1 = B0 * ua + B1 * um + B2 * ub;
  const u2 = C0 * ua + C1 * um + C2 * ub;
  const v0 = A0 * va + A1 * vm + A2 * vb;
  const v1 = B0 * va + B1 * vm + B2 * vb;
  const v2 = C0 * va + C1 * vm + C2 * vb;
  const f0 = side * W0 * v0 * (P0 * ua + P1 * um + P2 * ub);
  const f1 = side * W1 * v1 * (Q0 * ua + Q1 * um + Q2 * ub);
  const f2 = side * W0 * v2 * (R0 * ua + R1 * um + R2 * ub);
  sums[0] = sums[0]! - (f0 + f1 + f2);
  sums[1] = sums[1]! - (f0 * u0 + f1 * u1 + f2 * u2);
  sums[2] = sums[2]! - (f0 * v0 + f1 * v1 + f2 * v2) / 2;
}

/** A parabola that may meet the water once or twice. */
function addCutParabola(
  ua: number,
  va: number,
  um: number,
  vm: number,
  ub: number,
  vb: number,
  side: number,
  sums: Float64Array,
): void {
  const differ = va < 0 !== vb < 0;
  const bent = 2 * (va + vb - 2 * vm);
  const slope = 4 * vm - 3 * va - vb;
  let first: number;
  let second = 2;
  if (differ) first = oneRoot(va, slope, bent);
  else {
    first = lowerRoot(va, slope, bent);
    // Two roots or none, and both must lie on the edge.
    second = -slope / bent - first;
    if (!(first > 0 && second < 1)) {
      first = 2;
      second = 2;
    }
  }
  const wet = va < 0;
  if (first > 1) {
    if (wet) addParabolaPart(ua, va, um, vm, ub, vb, 0, 1, side, sums);
    return;
  }
  if (wet) addParabolaPart(ua, va, um, vm, ub, vb, 0, first, side, sums);
  addCrossing(along(ua, um, ub, first), wet ? side : -side, sums);
  if (second > 1) {
    if (!wet) addParabolaPart(ua, va, um, vm, ub, vb, first, 1, side, sums);
    return;
  }
  if (!wet) addParabolaPart(ua, va, um, vm, ub, vb, first, second, side, sums);
  addCrossing(along(ua, um, ub, second), wet ? -side : side, sums);
  if (wet) addParabolaPart(ua, va, um, vm, ub, vb, second, 1, side, sums);
}

/** A parabola by its values at 0, 1/2 and 1. */
function along(a: number, m: number, b: number, t: number): number {
  return a + t * (4 * m - 3 * a - b + t * 2 * (a + b - 2 * m));
}

function addParabolaPart(
  ua: number,
  va: number,
  um: number,
  vm: number,
  ub: number,
  vb: number,
  from: number,
  to: number,
  side: number,
  sums: Float64Array,
): void {
  const middle = (from + to) / 2;
  addWholeParabola(
    along(ua, um, ub, from),
    along(va, vm, vb, from),
    along(ua, um, ub, middle),
    along(va, vm, vb, middle),
    along(ua, um, ub, to),
    along(va, vm, vb, to),
    side,
    sums,
  );
}

/** Where c + b t + a t2 changes sign between 0 and 1, its ends differing in sign. */
function oneRoot(c: number, b: number, a: number): number {
  const discriminant = b * b - 4 * a * c;
  if (!(discriminant > 0)) return clamped(-c / b);
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  const [first, second] = [q / a, c / q];
  return clamped(outside(first) < outside(second) ? first : second);
}

/** The lower of the two places where c + b t + a t2 is zero; 2, beyond the edge, where there is none. */
function lowerRoot(c: number, b: number, a: number): number {
  const discriminant = b * b - 4 * a * c;
  if (!(discriminant > 0)) return 2;
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  return Math.min(q / a, c / q);
}

/** How far a share lies outside 0 to 1; rounding may put the root at an end a little outside. */
function outside(t: number): number {
  return Number.isNaN(t) ? Number.POSITIVE_INFINITY : Math.max(0, -t, t - 1);
}

function clamped(t: number): number {
  return Math.min(1, Math.max(0, t));
}
