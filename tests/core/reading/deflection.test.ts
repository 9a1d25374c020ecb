import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deflectionFromHandRead } from '#core/reading/deflection.ts';

describe('deflection read by hand', () => {
  it('takes 40 mm on a 3 m pendulum for atan(40/3000) = 0.763898 degree', () => {
    const read = deflectionFromHandRead({ kind: 'pendulum', lengthMm: 3000, extremesMm: [40] });
    expect(read.restMm).toBe(40);
    expect(read.heelDeg).toBeCloseTo(0.763898, 6);
    // half a millimetre evenly either way: 1/sqrt(12) mm; 1 mm on 3 m is 0.0191 degree
    expect(read.standardErrorDeg).toBeCloseTo(0.0191 / Math.sqrt(12), 4);
    expect(read.degreesOfFreedom).toBe(Number.POSITIVE_INFINITY);
  });

  it('takes the level difference over the span of a U-tube for the tangent', () => {
    const read = deflectionFromHandRead({ kind: 'u-tube', lengthMm: 8000, extremesMm: [279.366] });
    expect(read.heelDeg).toBeCloseTo(2, 4);
  });

  it('finds the rest point of a dying swing to second order in its decay', () => {
    // 2.0 degree let go with damping 0.04: the free-roll extremes, about a rest of 12 mm
    const swing = [2, -1.76364523, 1.55522226, -1.37143016, 1.20935813];
    const extremesMm = swing.map((extreme) => 12 + 10 * extreme);
    const read = deflectionFromHandRead({ kind: 'pendulum', lengthMm: 3000, extremesMm });
    expect(Math.abs(read.restMm - 12)).toBeLessThan(0.1);
    const plainMean = extremesMm.reduce((sum, value) => sum + value, 0) / 5;
    expect(Math.abs(read.restMm - 12)).toBeLessThan(Math.abs(plainMean - 12) / 20);
  });

  it('is mirrored by a mirrored deflection, and an even swing about any rest returns it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -300, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        fc.integer({ min: 3, max: 20 }),
        (restMm, swingMm, count) => {
          const extremesMm = Array.from(
            { length: count },
            (_, k) => restMm + (k % 2 ? -1 : 1) * swingMm,
          );
          const read = deflectionFromHandRead({ kind: 'pendulum', lengthMm: 2500, extremesMm });
          const mirrored = deflectionFromHandRead({
            kind: 'pendulum',
            lengthMm: 2500,
            extremesMm: extremesMm.map((value) => -value),
          });
          expect(read.restMm).toBeCloseTo(restMm, 9);
          expect(mirrored.heelDeg).toBeCloseTo(-read.heelDeg, 12);
        },
      ),
    );
  });

  it('grows its standard error with the scatter of the rest points', () => {
    const read = (wobbleMm: number) =>
      deflectionFromHandRead({
        kind: 'pendulum',
        lengthMm: 3000,
        extremesMm: [30, 10, 30, 10, 30, 10, 30, 10, 30].map((v, k) => v + (k % 3) * wobbleMm),
      });
    expect(read(4).standardErrorDeg).toBeGreaterThan(2 * read(0).standardErrorDeg);
    expect(read(4).degreesOfFreedom).toBeLessThan(10);
  });

  it('refuses what cannot be, by code', () => {
    const good = { kind: 'pendulum', lengthMm: 3000, extremesMm: [1, 2, 3] } as const;
    expect(() => deflectionFromHandRead({ ...good, lengthMm: 0 })).toThrow(/input-range/);
    expect(() => deflectionFromHandRead({ ...good, divisionMm: -1 })).toThrow(/input-range/);
    expect(() => deflectionFromHandRead({ ...good, extremesMm: [] })).toThrow(/input-too-few/);
    expect(() => deflectionFromHandRead({ ...good, extremesMm: [1, 2] })).toThrow(/input-too-few/);
    expect(() => deflectionFromHandRead({ ...good, extremesMm: [4000] })).toThrow(/input-range/);
    expect(() => deflectionFromHandRead({ ...good, extremesMm: [Number.NaN] })).toThrow(
      /input-not-finite/,
    );
  });
});
