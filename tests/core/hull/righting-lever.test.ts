import { describe, expect, it } from 'vitest';
import { heelLimits, knAt, knCurve, rightingLeverM } from '#core/hull/righting-lever.ts';
import { RADIANS_PER_DEGREE } from '#core/quantity/angle.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { ellipseSection, evenly, prism } from './hulls.ts';

const held = { fixedTrimRad: 0 };

describe('righting levers', () => {
  it('box, KG 2.2: the wall-sided formula to 25 degrees, with a deck that stays dry to 30', () => {
    const box = prism(20, 5, [
      [0, 0],
      [3, 0],
      [3, 8],
    ]);
    for (const [heelDeg, leverM] of [
      [5, 0.048602772],
      [10, 0.100905429],
      [15, 0.160932846],
      [20, 0.233419969],
      [25, 0.324335356],
    ] as const) {
      const point = knAt(box, 180, heelDeg * RADIANS_PER_DEGREE, held);
      expect(rightingLeverM(point, 2.2)).toBeCloseTo(leverM, 9);
    }
    // The bilge is out at 30 degrees: a right triangle of area 9, its centroid a third from the corner.
    const heel = 30 * RADIANS_PER_DEGREE;
    const wide = Math.sqrt((2 * 9) / Math.tan(heel));
    const [y, z] = [3 - wide / 3, (wide * Math.tan(heel)) / 3];
    expect(knAt(box, 180, heel, held).knM).toBeCloseTo(y * Math.cos(heel) + z * Math.sin(heel), 9);
  });

  it('ellipse: the closed form at every heel, circle: r sin', () => {
    const ellipse = prism(20, 5, ellipseSection(3, 1.5, 73));
    const circle = prism(16, 5, ellipseSection(2.5, 2.5, 73));
    for (const heelDeg of [1, 5, 20, 45, 70, 90, 130]) {
      const heel = heelDeg * RADIANS_PER_DEGREE;
      const [s, c] = [Math.sin(heel), Math.cos(heel)];
      const exact =
        ((4 / (3 * Math.PI)) * (9 - 2.25) * s * c) / Math.hypot(1.5 * c, 3 * s) + 1.5 * s;
      expect(Math.abs(knAt(ellipse, 141.371669412, heel, held).knM - exact)).toBeLessThan(2e-6);
      expect(Math.abs(knAt(circle, 157.079633, heel, held).knM - 2.5 * s)).toBeLessThan(1e-6);
    }
  });

  it('is odd in heel, and stands still upright', () => {
    const hull = marramHull();
    const trimming = { freeAbout: { xM: 6.4, zM: 2.2 } };
    const both = knCurve(hull, 45, [-0.9, -0.2, 0, 0.2, 0.9], trimming);
    expect(both[2]!.knM).toBeCloseTo(0, 10);
    expect(both[3]!.knM).toBeCloseTo(-both[1]!.knM, 8);
    expect(both[4]!.knM).toBeCloseTo(-both[0]!.knM, 8);
  });

  it('does as much work as the vessel rises out of the water', () => {
    const hull = marramHull();
    const trimming = { freeAbout: { xM: 6.4, zM: 2.2 } };
    const heels = evenly(0, 0.8, 161);
    const points = knCurve(hull, 45, heels, trimming);
    const height = (k: number) => {
      const { buoyancy: b, waterline } = points[k]!;
      const [st, ct] = [Math.sin(waterline.trimRad), Math.cos(waterline.trimRad)];
      const [sh, ch] = [Math.sin(heels[k]!), Math.cos(heels[k]!)];
      return (6.4 - b.xM) * st + (-(0 - b.yM) * sh + (2.2 - b.zM) * ch) * ct;
    };
    let work = 0;
    for (let k = 1; k < heels.length; k++) {
      const lever = (i: number) =>
        rightingLeverM(points[i]!, 2.2) * Math.cos(points[i]!.waterline.trimRad);
      work += ((heels[k]! - heels[k - 1]!) * (lever(k) + lever(k - 1))) / 2;
    }
    expect(work).toBeCloseTo(height(160) - height(0), 4);
  });

  it('tells when the deck edge dips and where the lever vanishes, to both sides', () => {
    const box = prism(20, 5, [
      [0, 0],
      [3, 0],
      [3, 2.5],
    ]);
    for (const side of ['starboard', 'port'] as const) {
      const limits = heelLimits(box, { volumeM3: 180, trimming: held, kgM: 2.2, tcgM: 0, side });
      expect(Math.tan(limits.deckEdgeRad!)).toBeCloseTo(1 / 3, 9);
      expect(limits.openings).toEqual([]);
      const vanishing = knAt(box, 180, limits.vanishingRad!, held);
      expect(rightingLeverM(vanishing, 2.2)).toBeCloseTo(0, 9);
    }
    const stiff = heelLimits(box, {
      volumeM3: 180,
      trimming: held,
      kgM: 0.2,
      tcgM: 0,
      side: 'port',
    });
    expect(stiff.vanishingRad).toBeNull();
  });
});

describe('a curve of levers', () => {
  it('is the same heel by heel as each heel found alone, evenly or not, and back again', () => {
    const hull = marramHull();
    const trimming = { freeAbout: { xM: 6.46, zM: 2.26 } };
    const heels = [0, 1, 2, 40, 41, 41, 89, 3, 2, -5].map((heel) => heel * RADIANS_PER_DEGREE);
    const curve = knCurve(hull, 45.7, heels, trimming);
    curve.forEach((point, k) => {
      const alone = knAt(hull, 45.7, heels[k]!, trimming);
      expect(point.knM).toBeCloseTo(alone.knM, 9);
      expect(point.waterline.trimRad).toBeCloseTo(alone.waterline.trimRad, 9);
    });
  });
});
