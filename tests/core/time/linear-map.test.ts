import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  linearMapFrom,
  linearMapThrough,
  linearMapTime,
  linearMapUncertaintyS,
} from '#core/time/linear-map.ts';

const map = fc.record({
  fromS: fc.double({ min: -1e5, max: 1e5, noNaN: true }),
  toS: fc.double({ min: -1e5, max: 1e5, noNaN: true }),
  rate: fc.double({ min: 0.99, max: 1.01, noNaN: true }),
  uncertaintyS: fc.double({ min: 0, max: 1, noNaN: true }),
  rateUncertainty: fc.double({ min: 0, max: 0.01, noNaN: true }),
});

describe('a map from clock to clock', () => {
  it('goes through its point with its rate', () => {
    const half = { fromS: 10, toS: 100, rate: 0.5, uncertaintyS: 0, rateUncertainty: 0 };
    expect(linearMapTime(half, 10)).toBe(100);
    expect(linearMapTime(half, 14)).toBe(102);
  });

  it('through another is one after the other, to the rounding of doubles', () => {
    fc.assert(
      fc.property(map, map, fc.double({ min: -1e5, max: 1e5, noNaN: true }), (a, b, atS) => {
        const direct = linearMapTime(linearMapThrough(a, b), atS);
        expect(Math.abs(direct - linearMapTime(b, linearMapTime(a, atS)))).toBeLessThan(1e-8);
      }),
    );
  });

  it('adds uncertainties in square', () => {
    const of = (uncertaintyS: number, rateUncertainty: number) => ({
      fromS: 0,
      toS: 0,
      rate: 1,
      uncertaintyS,
      rateUncertainty,
    });
    const both = linearMapThrough(of(0.003, 3e-5), of(0.004, 4e-5));
    expect(both.uncertaintyS).toBeCloseTo(0.005, 12);
    expect(both.rateUncertainty).toBeCloseTo(5e-5, 12);
  });

  it('knows less the farther it is followed, to either side', () => {
    const known = { fromS: 100, toS: 0, rate: 1, uncertaintyS: 0.003, rateUncertainty: 4e-5 };
    expect(linearMapUncertaintyS(known, 100)).toBe(0.003);
    expect(linearMapUncertaintyS(known, 200)).toBeCloseTo(0.005, 12);
    expect(linearMapUncertaintyS(known, 0)).toBeCloseTo(0.005, 12);
    expect(linearMapFrom(known, 200)).toMatchObject({ fromS: 200, toS: 100 });
    expect(linearMapFrom(known, 200).uncertaintyS).toBeCloseTo(0.005, 12);
  });
});
