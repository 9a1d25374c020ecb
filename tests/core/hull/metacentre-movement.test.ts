import { describe, expect, it } from 'vitest';
import {
  metacentreMovementByIntegralM,
  metacentreMovementByKnM,
} from '#core/hull/metacentre-movement.ts';
import { waterlineAtDraught, waterlineFromDraughts } from '#core/hull/waterline.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { ellipseSection, evenly, prism } from './hulls.ts';

/** Within: a curvature at one point of a curve through points is good to a hundredth or two. */
describe('c2, the movement of the metacentre', () => {
  it.each([
    [
      'box',
      [
        [0, 0],
        [3, 0],
        [3, 3],
      ],
      1.5,
      1,
      1e-9,
    ],
    // Half of BM 2.5: the wall-sided formula is exact for a parabola.
    ['parabola', evenly(0, 3.2, 41).map((y) => [y, y * y * 0.2]), 1.25, 1.25, 0.02],
    ['circle', ellipseSection(2.5, 2.5, 73), 2.5, 0, 0.002],
    ['ellipse', ellipseSection(3, 1.5, 73), 1.5, -3.819718634, 0.05],
  ] as const)('%s, in closed form, by both ways', (_, section, draughtM, exactM, within) => {
    const hull = prism(20, 5, section as readonly (readonly [number, number])[]);
    const upright = waterlineAtDraught(draughtM);
    expect(Math.abs(metacentreMovementByIntegralM(hull, upright) - exactM)).toBeLessThan(within);
    expect(Math.abs(metacentreMovementByKnM(hull, upright, 'fixed') - exactM)).toBeLessThan(within);
  });

  it('of Marram by the integral, knuckle line through the water and all, and by the exact KN', () => {
    const hull = marramHull();
    for (const [aftM, forwardM] of [
      [1.4, 1.4],
      [1.46, 1.34],
      [1.3, 1.5],
    ] as const) {
      const upright = waterlineFromDraughts(
        { xM: 0, draughtM: aftM },
        { xM: 15, draughtM: forwardM },
      );
      const byKn = metacentreMovementByKnM(hull, upright, 'fixed');
      const byIntegral = metacentreMovementByIntegralM(hull, upright);
      expect(Math.abs(byIntegral / byKn - 1)).toBeLessThan(0.02);
    }
  });
});
