import {
  A0,
  A1,
  A2,
  B0,
  B1,
  B2,
  C0,
  C1,
  C2,
  P0,
  P1,
  P2,
  Q0,
  Q1,
  Q2,
  R0,
  R1,
  R2,
  W0,
  W1,
} from './outline-path.ts';

/** Integrals below the water of an edge that is a parabola and meets it; see `section-cut.ts`. */

/** The waterline ends here: on its starboard end with weight 1, on its port end with -1. */
export function addCrossing(u: number, weight: number, sums: Float64Array): void {
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
export function addCutParabola(
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
