import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { fitCurve } from '#core/numerics/gauss-newton.ts';

describe('fit of a curve', () => {
  it('gives the certified numbers of NIST StRD Misra1a', () => {
    // NIST StRD, Misra1a (from memory of the printed set): y = b1 (1 - exp(-b2 x)),
    // certified b1 238.94212918, b2 5.5015643181e-4, residual sum of squares 0.12455138894
    const y = [
      10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47,
      81.78,
    ];
    const x = [
      77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1,
      760.0,
    ];
    const fit = fitCurve({
      seen: y,
      start: [500, 1e-4],
      reach: [1e-2, 1e-9],
      curveOf: ([b1, b2], curve) => {
        x.forEach((place, k) => {
          curve[k] = b1! * -Math.expm1(-b2! * place);
        });
      },
    });
    expect(fit.numbers[0]).toBeCloseTo(238.94212918, 5);
    expect(fit.numbers[1]! * 1e4).toBeCloseTo(5.5015643181, 7);
    expect(fit.rest).toBeCloseTo(0.12455138894, 9);
  });

  it('refuses a number that has no effect', () => {
    const useless = () =>
      fitCurve({
        seen: [1, 2, 3],
        start: [1, 1],
        reach: [1e-3, 1e-3],
        curveOf: ([level], curve) => curve.fill(level!),
      });
    expect(useless).toThrow(Fault);
    expect(useless).toThrow(/no effect/);
  });
});
