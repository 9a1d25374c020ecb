import fc from 'fast-check';
import { expect, test } from 'vitest';
import { polygonBelow } from '#core/numerics/clipped-polygon.ts';

const RECTANGLE = [
  { y: -1, z: 0 },
  { y: 1, z: 0 },
  { y: 1, z: 2 },
  { y: -1, z: 2 },
];

// A rectangle 2 wide half full, tilted: the wedge moves its centroid by b2 s / (12 h), s2 b2 / (24 h).
test('a rectangle below a tilted line', () => {
  const slope = 0.3;
  for (const corners of [RECTANGLE, [...RECTANGLE].reverse()]) {
    const { area, momentY, momentZ } = polygonBelow(corners, 1, slope);
    expect(area).toBeCloseTo(2, 12);
    expect(momentY / area).toBeCloseTo((4 * slope) / 12, 12);
    expect(momentZ / area).toBeCloseTo(0.5 + (4 * slope ** 2) / 24, 12);
  }
});

test('wholly below, wholly above', () => {
  expect(polygonBelow(RECTANGLE, 9, 0.1).area).toBeCloseTo(4, 12);
  expect(polygonBelow(RECTANGLE, -9, 0.1).area).toBe(0);
});

test('law: what is below and what is above make the whole', () => {
  const side = fc.double({ min: -3, max: 3, noNaN: true });
  fc.assert(
    fc.property(side, side, (level, slope) => {
      const turned = RECTANGLE.map(({ y, z }) => ({ y: -y, z: -z }));
      const below = polygonBelow(RECTANGLE, level, slope);
      const above = polygonBelow(turned, -level, slope);
      expect(below.area + above.area).toBeCloseTo(4, 9);
      expect(below.momentY - above.momentY).toBeCloseTo(0, 9);
      expect(below.momentZ - above.momentZ).toBeCloseTo(4, 9);
    }),
  );
});
