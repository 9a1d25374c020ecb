import { expect, it } from 'vitest';
import { PREFIX, writePrefix } from '#core/hull/outline-path.ts';

it('runs y dz, y2 dz and z2 dy along straight edges and parabolas', () => {
  // Up the line y = 1 + z to z 1, then along y = 2 + (z - 1)2 to z 2, nodes at equal steps of z.
  const edges = Int32Array.from([0, -1, 1, 1, 2, 3]);
  const nodes = Float64Array.from([1, 0, 2, 1, 2.25, 1.5, 3, 2]);
  const out = new Float64Array(PREFIX * 3);
  writePrefix(edges, nodes, 0, out, 0);
  expect([...out.slice(0, 3)]).toEqual([0, 0, 0]);
  expect(out[3]).toBeCloseTo(1.5, 13);
  expect(out[4]).toBeCloseTo(7 / 3, 13);
  expect(out[5]).toBeCloseTo(1 / 3, 13);
  expect(out[6]! - out[3]!).toBeCloseTo(2 + 1 / 3, 13);
  expect(out[7]! - out[4]!).toBeCloseTo(4 + 4 / 3 + 1 / 5, 13);
  // Integral of z2 2 (z - 1) dz from 1 to 2.
  expect(out[8]! - out[5]!).toBeCloseTo(7.5 - 14 / 3, 13);
});
