import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { zeroByReversal } from '#core/calibration/reversal.ts';

describe('zero by reversal', () => {
  it('parts the zero from the tilt of the plane', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        (zero, tilt) => {
          const one = { firstDeg: tilt + zero, turnedDeg: zero - tilt };
          const found = zeroByReversal([one, one, one]);
          expect(found.zeroDeg.value).toBeCloseTo(zero, 12);
          expect(found.planeTiltDeg.value).toBeCloseTo(tilt, 12);
        },
      ),
    );
  });

  it('states the scatter of the repeats, or that of a reading over the root of two', () => {
    const repeats = [
      { firstDeg: 0.31, turnedDeg: 0.09 },
      { firstDeg: 0.32, turnedDeg: 0.1 },
      { firstDeg: 0.33, turnedDeg: 0.11 },
    ];
    const { zeroDeg } = zeroByReversal(repeats);
    expect(zeroDeg.value).toBeCloseTo(0.21, 12);
    expect(zeroDeg.standardUncertainty).toBeCloseTo(0.01 / Math.sqrt(3), 12);
    expect(zeroDeg.degreesOfFreedom).toBe(2);
    expect(zeroByReversal(repeats.slice(0, 1), 0.004).zeroDeg.standardUncertainty).toBeCloseTo(
      0.004 / Math.SQRT2,
      12,
    );
  });

  it('refuses one repeat without a stated uncertainty, and what is no number', () => {
    expect(() => zeroByReversal([{ firstDeg: 0, turnedDeg: 0 }])).toThrow(/input-too-few/);
    expect(() => zeroByReversal([{ firstDeg: Number.NaN, turnedDeg: 0 }], 0.01)).toThrow(
      /input-not-finite/,
    );
  });
});
