/**
 * Edges of a section: node numbers from, by, to; `by` is -1 for a straight edge. Each begins where the
 * one before it ends.
 */
export type Edges = Int32Array;

/** Points on a parabola for three-point Gauss quadrature, exact for what is summed here. */
const GAUSS_T = [0.5 - Math.sqrt(0.15), 0.5, 0.5 + Math.sqrt(0.15)];
const GAUSS_WEIGHT = [5 / 18, 8 / 18, 5 / 18];
/** Value and slope at each of those points by the three nodes of a parabola. */
const VALUE = GAUSS_T.map((t) => [(1 - t) * (1 - 2 * t), 4 * t * (1 - t), t * (2 * t - 1)]);
const SLOPE = GAUSS_T.map((t) => [4 * t - 3, 4 - 8 * t, 4 * t - 1]);
const [V0, V1, V2] = VALUE as [number[], number[], number[]];
const [D0, D1, D2] = SLOPE as [number[], number[], number[]];
export const [A0, A1, A2, B0, B1, B2, C0, C1, C2] = [...V0, ...V1, ...V2] as Nine;
export const [P0, P1, P2, Q0, Q1, Q2, R0, R1, R2] = [...D0, ...D1, ...D2] as Nine;
export const [W0, W1] = GAUSS_WEIGHT as [number, number];
type Nine = [number, number, number, number, number, number, number, number, number];

/** Integrals along the outline from its beginning to each end of an edge: y dz, y2 dz, z2 dy. */
export const PREFIX = 3;

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
