import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formulaMomentTM,
  freeSurfaceCoefficient,
  freeSurfaceTM,
  surfaceMomentM4,
} from '#core/condition/free-surface.ts';
import { liquidsMoving } from '#core/condition/liquid-at-heel.ts';
import { spacesFrom } from '#core/condition/space.ts';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';

const box = (l: number, b: number, h: number, fromYM = -b / 2) =>
  rectangularTank({ fromXM: 0, toXM: l, fromYM, toYM: fromYM + b, fromZM: 0, toZM: h });

describe('the upright second moment', () => {
  test('of a rectangle is l b3 / 12, wherever it stands; none when full or empty', () => {
    expect(surfaceMomentM4(box(15, 10, 2), 150)).toBeCloseTo((15 * 10 ** 3) / 12, 9);
    expect(surfaceMomentM4(box(15, 10, 2, 3), 150)).toBeCloseTo(1250, 8);
    expect(surfaceMomentM4(box(15, 10, 2), 300)).toBe(0);
    expect(surfaceMomentM4(box(15, 10, 2), 0)).toBe(0);
  });

  // Barrass & Derrett, Ship Stability for Masters and Mates: loss .160156 m at 8000 t, salt water.
  test("Barrass's double-bottom tank", () => {
    const liquid = { tank: 'db', shape: box(15, 10, 2), volumeM3: 150, densityTM3: 1.025 };
    expect(freeSurfaceTM(liquid) / 8000).toBeCloseTo(0.160156, 6);
  });

  test('n equal compartments divide the loss by n squared', () => {
    const one = surfaceMomentM4(box(4, 3, 1), 6);
    const three = [-1.5, -0.5, 0.5].map((from) => surfaceMomentM4(box(4, 1, 1, from), 2));
    expect(three.reduce((a, b) => a + b)).toBeCloseTo(one / 9, 10);
  });

  test('is the slope of the moment of the liquid as it tilts, for any shape', () => {
    const outline = (k: number) => [
      { yM: 0.2, zM: 0 },
      { yM: 1 + k, zM: 0.2 },
      { yM: 1.4 + k, zM: 1 },
      { yM: 0, zM: 1 },
    ];
    const shape = { sections: [0, 1, 3].map((xM) => ({ xM, outline: outline(xM / 10) })) };
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 2, noNaN: true }), (volumeM3) => {
        const moved = liquidsMoving([{ tank: 'wing', shape, volumeM3, densityTM3: 1 }]);
        const slope = (moved(1e-5, 0).yTM - moved(-1e-5, 0).yTM) / 2e-5;
        expect(slope).toBeCloseTo(surfaceMomentM4(shape, volumeM3), 6);
      }),
      { numRuns: 40 },
    );
  });
});

describe('the coefficient k of RD 543/2007 annex II 5', () => {
  // Row b/h 0.75 is printed as .02 .04 .04 .05 .09 .16 .18 .21, a copy of row 0.5; row 20 has .09 .09
  // at 50 and 60 degrees. The formula's values, to the two digits of the table:
  test.each([
    [0.75, [30, 40, 45, 50, 60, 70, 75, 80], [0.04, 0.05, 0.07, 0.08, 0.12, 0.15, 0.15, 0.16]],
    [0.5, [30, 40, 45, 50, 60, 70, 75, 80], [0.02, 0.04, 0.04, 0.05, 0.09, 0.16, 0.18, 0.21]],
    [20, [50, 60], [0.08, 0.07]],
  ])('of b/h %d is the formula, not what is misprinted', (ratio, heelsDeg, expected) => {
    const found = heelsDeg.map((deg) => freeSurfaceCoefficient(ratio, radiansFromDegrees(deg)));
    found.forEach((k, i) => {
      expect(Math.abs(k - expected[i]!)).toBeLessThanOrEqual(0.0051);
    });
  });

  test('its two branches meet, and it is the exact moment of a rectangle half full', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.25, max: 20, noNaN: true }),
        fc.double({ min: 0.02, max: 1.5, noNaN: true }),
        (ratio, heel) => {
          const h = 1.3;
          const b = ratio * h;
          const shape = box(2, b, h);
          const v = 2 * b * h;
          const moved = liquidsMoving([{ tank: 't', shape, volumeM3: v / 2, densityTM3: 1 }]);
          const { yTM, zTM } = moved(heel, 0);
          const momentTM = yTM * Math.cos(heel) + zTM * Math.sin(heel);
          expect(v * b * freeSurfaceCoefficient(ratio, heel)).toBeCloseTo(momentTM, 6);
        },
      ),
      { numRuns: 100 },
    );
  });

  test('a moment by the formula has the block coefficient in it and knows no sign', () => {
    const triangle = [0, 3].map((xM) => ({
      xM,
      outline: [
        { yM: 0, zM: 0 },
        { yM: 1, zM: 1 },
        { yM: 0, zM: 1 },
      ],
    }));
    const space = spacesFrom([
      { space: 'w', use: 'fuel', shape: { kind: 'sections', sections: triangle }, densityTM3: 0.9 },
    ]).get('w')!;
    const heel = radiansFromDegrees(30);
    const expected = 1.5 * 1 * 0.9 * freeSurfaceCoefficient(1, heel) * Math.sqrt(0.5);
    expect(formulaMomentTM(space, heel)).toBeCloseTo(expected, 12);
    expect(formulaMomentTM(space, -heel)).toBeCloseTo(expected, 12);
  });
});
