import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import type { Levers } from '#core/stability/evidence.ts';
import { leversThrough } from '#core/stability/sampled-levers.ts';

const sampled = (lever: (heelRad: number) => number, stepDeg: number, toDeg = 90): Levers => {
  const heels = Array.from({ length: Math.round(toDeg / stepDeg) + 1 }, (_, k) =>
    radiansFromDegrees(k * stepDeg),
  );
  return leversThrough(heels, heels.map(lever));
};

describe('levers through samples', () => {
  it('follow a smooth curve and its area to far under a tenth of a millimetre', () => {
    const levers = sampled((heel) => 0.4 * Math.sin(2 * heel), 2.5);
    for (let deg = 0; deg <= 90; deg += 0.7) {
      const heel = radiansFromDegrees(deg);
      expect(levers.leverM(heel)).toBeCloseTo(0.4 * Math.sin(2 * heel), 4);
      expect(levers.areaMRad(0, heel)).toBeCloseTo(0.2 * (1 - Math.cos(2 * heel)), 5);
    }
  });

  it('are exact on a parabola of uneven samples', () => {
    const lever = (heel: number) => 0.1 + 0.5 * heel - 0.4 * heel * heel;
    const heels = [0, 0.1, 0.35, 0.6, 1.2];
    const levers = leversThrough(heels, heels.map(lever));
    expect(levers.leverM(0.5)).toBeCloseTo(lever(0.5), 12);
    expect(levers.areaMRad(0.2, 1.1)).toBeCloseTo(
      0.1 * 0.9 + 0.25 * (1.21 - 0.04) - (0.4 / 3) * (1.331 - 0.008),
      12,
    );
  });

  // Biran, Ship Hydrostatics and Stability, 2003: KN seen; areas our calculation, +-.0004.
  it("give the areas of Biran's small cargo ship", () => {
    const heels = [0, 10, 20, 30, 45, 60, 75, 90].map(radiansFromDegrees);
    const kn = [0, 0.918, 1.833, 2.717, 3.847, 4.653, 5.007, 4.994];
    const levers = leversThrough(
      heels,
      heels.map((heel, k) => kn[k]! - 5.04 * Math.sin(heel)),
    );
    const area = (from: number, to: number) =>
      levers.areaMRad(radiansFromDegrees(from), radiansFromDegrees(to));
    expect(Math.abs(area(0, 30) - 0.0431)).toBeLessThan(0.0004);
    expect(Math.abs(area(0, 40) - 0.0835)).toBeLessThan(0.0004);
    expect(Math.abs(area(30, 40) - 0.0405)).toBeLessThan(0.0004);
  });

  it('pass through their samples, and areas add up', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: 3, maxLength: 40 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, one, two) => {
          const heels = values.map((_, k) => k * 0.03);
          const levers = leversThrough(heels, values);
          values.forEach((value, k) => {
            expect(levers.leverM(heels[k]!)).toBeCloseTo(value, 9);
          });
          const [a, b] = [one * levers.mostHeelRad, two * levers.mostHeelRad];
          expect(levers.areaMRad(0, a) + levers.areaMRad(a, b)).toBeCloseTo(
            levers.areaMRad(0, b),
            9,
          );
        },
      ),
    );
  });

  it('refuse what makes no curve, and a heel they do not reach', () => {
    expect(() => leversThrough([0, 0.1], [0, 1])).toThrow('input-too-few');
    expect(() => leversThrough([0, 0.1, 0.2], [0, 1])).toThrow('input-unequal-length');
    expect(() => leversThrough([0, 0.1, 0.1], [0, 1, 2])).toThrow('does not go up');
    expect(() => leversThrough([0.1, 0.2, 0.3], [0, 1, 2])).toThrow('not upright');
    expect(() => leversThrough([0, 1, 2], [0, 1, 2])).toThrow('input-range');
    expect(() => leversThrough([0, 0.1, 0.2], [0, Number.NaN, 2])).toThrow('input-not-finite');
    const levers = sampled((heel) => heel, 5, 60);
    expect(() => levers.leverM(radiansFromDegrees(61))).toThrow('input-range');
    expect(() => levers.areaMRad(0, radiansFromDegrees(61))).toThrow('input-range');
  });
});
