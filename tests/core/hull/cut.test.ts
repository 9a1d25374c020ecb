import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Body } from '#core/hull/body.ts';
import { breaksOf, cutBodies, frameOf } from '#core/hull/cut.ts';
import { immersedOf } from '#core/hull/hull.ts';
import type { Waterline } from '#core/hull/waterline.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { clipped, facetsOf } from '#tests/support/facets.ts';
import { type Solid, solidOf } from '#tests/support/solid.ts';
import { prism, wigley } from './hulls.ts';

/** Waterlines from upright to upside down, trimmed to both ends, deep and shallow. */
const WATERLINES: readonly Waterline[] = [
  { heelRad: 0, trimRad: 0, levelM: 1.4 },
  { heelRad: 0.05, trimRad: 0.01, levelM: 1.45 },
  { heelRad: 0.35, trimRad: -0.02, levelM: 1.2 },
  { heelRad: -0.9, trimRad: 0.04, levelM: 0.9 },
  { heelRad: 1.5, trimRad: 0.1, levelM: 0.5 },
  { heelRad: 2.6, trimRad: -0.05, levelM: -1.2 },
  { heelRad: 0.1, trimRad: 0.15, levelM: 2 },
];

describe.each([
  ['Marram without what stands on her', () => marramHull().main],
  ['a Wigley hull', () => wigley(16, 3.2, 1.5, 21, 11).main],
] as const)('%s cut by the same tilted plane as a general geometry library cuts', (_, body) => {
  let main: Body;
  let solid: Solid;
  beforeAll(async () => {
    main = body();
    solid = await solidOf(facetsOf(main, 12, 8));
  });
  afterAll(() => solid.delete());

  it.each(WATERLINES)('heel $heelRad, trim $trimRad, level $levelM', (waterline) => {
    const own = immersedOf(cutBodies([main], waterline));
    const general = solid.cut(waterline);
    // The hulls are 16 m long: volume to 1e-4, centre to a millimetre.
    expect(Math.abs(own.volumeM3 / general.volumeM3 - 1)).toBeLessThan(1e-4);
    for (const axis of ['xM', 'yM', 'zM'] as const) {
      expect(Math.abs(own.centre[axis] - general.centre[axis])).toBeLessThan(0.001);
    }
  });
});

describe('pieces between corners', () => {
  it('cuts an interval where the edge of a box passes through the water', () => {
    const { main } = prism(20, 5, [
      [0, 0],
      [3, 0],
      [3, 3],
    ]);
    const trimmed = { heelRad: 0, trimRad: 0.2, levelM: 2 };
    const frame = frameOf(trimmed);
    expect(breaksOf(main, 0, frame, trimmed.levelM)).toEqual([]);
    expect(breaksOf(main, 2, frame, trimmed.levelM)[0]).toBeCloseTo(
      (2 / Math.sin(0.2) - 10) / 5,
      12,
    );
    // A triangle from the after end to where the bottom comes out, over the breadth.
    const height = 2 / Math.cos(0.2);
    const length = 2 / Math.sin(0.2);
    expect(cutBodies([main], trimmed).volumeM3).toBeCloseTo((6 * height * length) / 2, 10);
  });

  it('gives the plain clip of many facets of the same hull to 1e-4', () => {
    const { main } = wigley(16, 3.2, 1.5, 21, 11);
    const facets = facetsOf(main, 12, 8);
    for (const waterline of WATERLINES) {
      const [own, plain] = [immersedOf(cutBodies([main], waterline)), clipped(facets, waterline)];
      expect(Math.abs(own.volumeM3 / plain.volumeM3 - 1)).toBeLessThan(1e-4);
    }
  });
});
