import fc from 'fast-check';
import { expect, it } from 'vitest';
import { PREFIX, writePrefix } from '#core/hull/outline-path.ts';
import { cutSection, SUMS } from '#core/hull/section-cut.ts';

/** Half a section with a straight bottom, a parabola for a bilge and a deck. */
const edges = Int32Array.from([0, -1, 1, 1, 2, 3, 3, -1, 4, 4, -1, 5]);
const nodes = Float64Array.from([0, 0, 1.5, 0.1, 2.2, 0.5, 2.4, 1.3, 2.6, 2.5, 0, 2.6]);
const prefix = new Float64Array(PREFIX * 5);
writePrefix(edges, nodes, 0, prefix, 0);
const scratch = { u: new Float64Array(6), v: new Float64Array(6) };

function sumsAt(heelRad: number, offsetM: number): Float64Array {
  const sums = new Float64Array(SUMS);
  const line = { cosineY: -Math.sin(heelRad), cosineZ: Math.cos(heelRad), offsetM };
  for (const side of [1, -1] as const) {
    cutSection(edges, { nodes, prefix }, 0, 0, side, line, scratch, sums);
  }
  return sums;
}

/** The same by many short straight edges and a plain polygon clip. */
function plainly(heelRad: number, offsetM: number): number[] {
  const half: [number, number][] = [];
  for (let k = 0; k <= 4000; k++) {
    const t = k / 4000;
    const y = 1.5 + t * (4 * 2.2 - 3 * 1.5 - 2.4 + t * 2 * (1.5 + 2.4 - 4.4));
    const z = 0.1 + t * (4 * 0.5 - 3 * 0.1 - 1.3 + t * 2 * (0.1 + 1.3 - 1));
    half.push([y, z]);
  }
  const starboard: [number, number][] = [[0, 0], ...half, [2.6, 2.5], [0, 2.6]];
  const port = starboard.map(([y, z]): [number, number] => [-y, z]).reverse();
  const turned = [...starboard, ...port].map(([y, z]): [number, number] => [
    y * Math.cos(heelRad) + z * Math.sin(heelRad),
    -y * Math.sin(heelRad) + z * Math.cos(heelRad) - offsetM,
  ]);
  let [area, momentU, momentV] = [0, 0, 0];
  const kept: [number, number][] = [];
  turned.forEach(([u, v], i) => {
    const [un, vn] = turned[(i + 1) % turned.length]!;
    if (v <= 0) kept.push([u, v]);
    if (v <= 0 !== vn <= 0) kept.push([u + ((un - u) * v) / (v - vn), 0]);
  });
  kept.forEach(([u, v], i) => {
    const [un, vn] = kept[(i + 1) % kept.length]!;
    const cross = u * vn - un * v;
    area += cross / 2;
    momentU += (cross * (u + un)) / 6;
    momentV += (cross * (v + vn)) / 6;
  });
  return [area, momentU, momentV];
}

it('gives area and moments of a plain clip of many short edges, at any heel and level', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -3.1, max: 3.1, noNaN: true }),
      fc.double({ min: -2.4, max: 2.6, noNaN: true }),
      (heelRad, offsetM) => {
        const sums = sumsAt(heelRad, offsetM);
        const expected = plainly(heelRad, offsetM);
        for (let k = 0; k < 3; k++) expect(Math.abs(sums[k]! - expected[k]!)).toBeLessThan(3e-7);
      },
    ),
    { numRuns: 60 },
  );
});

it('gives as the waterline how area grows with the level, and its moments', () => {
  const step = 1e-5;
  for (const [heelRad, levelM] of [
    [0, 1.2],
    [0.4, 1.5],
    [2.5, -1.1],
    [1.2, 0.9],
  ] as const) {
    const [more, less] = [sumsAt(heelRad, levelM + step), sumsAt(heelRad, levelM - step)];
    const at = sumsAt(heelRad, levelM);
    expect((more[0]! - less[0]!) / (2 * step)).toBeCloseTo(at[3]!, 5);
    expect((more[1]! - less[1]!) / (2 * step)).toBeCloseTo(at[4]!, 5);
    expect(at[5]!).toBeGreaterThan((at[4]! * at[4]!) / at[3]!);
  }
});
