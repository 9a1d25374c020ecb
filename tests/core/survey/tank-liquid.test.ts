import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  checkTankShape,
  liquidAtRest,
  liquidBelow,
  rectangularTank,
  volumeOfSounding,
} from '#core/survey/tank-liquid.ts';

const TANK = rectangularTank({ fromXM: 2, toXM: 6, fromYM: -1, toYM: 2, fromZM: 0.3, toZM: 1.3 });
const slope = (heelSlope: number, trimSlope = 0) => ({ heelSlope, trimSlope });

// l b h with a wedge: y moves by b2 t / (12 h), z by b2 t2 / (24 h).
test('a rectangular tank half full at rest, while the liquid keeps its width', () => {
  const body = liquidAtRest(TANK, 6, slope(0.1));
  expect(body.xM).toBeCloseTo(4, 12);
  expect(body.yM).toBeCloseTo(0.5 + (9 * 0.1) / 12 / 0.5, 10);
  expect(body.zM).toBeCloseTo(0.3 + 0.25 + (9 * 0.01) / 24 / 0.5, 10);
});

test('a shallow film pockets on the low side: a triangle, no more', () => {
  const t = 0.2;
  const volume = 0.04 * 12;
  const body = liquidAtRest(TANK, volume, slope(t));
  // area of the triangle w2 t / 2
  const width = Math.sqrt((2 * volume) / 4 / t);
  expect(width).toBeLessThan(3);
  expect(body.yM).toBeCloseTo(2 - width / 3, 10);
  expect(body.zM).toBeCloseTo(0.3 + (width * t) / 3, 10);
});

test('full and empty tanks do not move', () => {
  for (const t of [-0.3, 0, 0.3]) {
    expect(liquidAtRest(TANK, 12, slope(t)).yM).toBeCloseTo(0.5, 12);
    expect(liquidAtRest(TANK, 0, slope(t)).volumeM3).toBe(0);
  }
  expect(() => liquidAtRest(TANK, 12.1, slope(0))).toThrow(/input-range/);
});

test('law: the volume found again, and mirrored heel mirrors the liquid', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 0.95, noNaN: true }),
      fc.double({ min: -1, max: 1, noNaN: true }),
      (share, t) => {
        const body = liquidAtRest(TANK, 12 * share, slope(t, 0.01));
        expect(Math.abs(body.volumeM3 - 12 * share)).toBeLessThan(1e-9);
        const turned = liquidAtRest(TANK, 12 * share, slope(-t, 0.01));
        expect(turned.yM - 0.5).toBeCloseTo(0.5 - body.yM, 9);
      },
    ),
  );
});

test('a sounding on a heeled, trimmed vessel is the level there', () => {
  const at = { xM: 2.2, yM: 1.8, zM: 0.3 };
  const leaning = slope(0.05, 0.02);
  const volume = volumeOfSounding(TANK, at, 0.5, leaning);
  const body = liquidBelow(TANK, 0.8 - 0.05 * 1.8 + 0.02 * 2.2, leaning);
  expect(volume).toBeCloseTo(body.volumeM3, 12);
  // 0.5 deep there: less at the middle, which lies to port and forward
  expect(volume).toBeCloseTo(12 * (0.5 - 0.05 * 1.3 - 0.02 * 1.8), 9);
});

test('by sections: a tank that narrows, and a trim that fills its after end', () => {
  const square = (half: number) => [
    { yM: -half, zM: 0 },
    { yM: half, zM: 0 },
    { yM: half, zM: 1 },
    { yM: -half, zM: 1 },
  ];
  const narrowing = {
    sections: [
      { xM: 0, outline: square(1) },
      { xM: 3, outline: square(0.5) },
    ],
  };
  checkTankShape(narrowing);
  const body = liquidAtRest(narrowing, 2.25, slope(0));
  // half breadth 1 to 0.5 over 3 m: a trapezoid's centroid
  expect(body.xM).toBeCloseTo((3 / 3) * ((1 + 2 * 0.5) / 1.5), 10);
  expect(body.zM).toBeCloseTo(0.25, 10);
  expect(liquidAtRest(narrowing, 2.25, slope(0, 0.05)).xM).toBeLessThan(body.xM);
});

test('sections out of order, or too few corners, are refused', () => {
  expect(() => checkTankShape({ sections: [TANK.sections[1]!, TANK.sections[0]!] })).toThrow(
    /input-contradiction/,
  );
  expect(() => checkTankShape({ sections: [TANK.sections[0]!] })).toThrow(/input-too-few/);
  expect(() =>
    rectangularTank({ fromXM: 2, toXM: 2, fromYM: 0, toYM: 1, fromZM: 0, toZM: 1 }),
  ).toThrow(/input-range/);
});
