import { describe, expect, it } from 'vitest';
import {
  coefficientByName,
  gmOfPeriod,
  ownCoefficient,
  ROLL_COEFFICIENTS,
  rollC,
} from '#core/reduction/roll-coefficient.ts';

describe('rolling coefficients', () => {
  it('are the ones printed', () => {
    // IMO A.749(18) annex 3, 3.4
    const printed = [0.88, 0.78, 0.75, 0.73, 0.95, 0.8, 0.6];
    expect(ROLL_COEFFICIENTS.map(({ f }) => f)).toEqual(printed);
    expect(coefficientByName('deep-sea').f).toBe(0.8);
    expect(() => coefficientByName('nothing')).toThrow(/known are empty/);
  });

  it('agree in metres with those in feet', () => {
    // TP 2072 appendix III prints 0.49, 0.435, 0.415, 0.405 for GM and B in feet: f sqrt(0.3048)
    const inFeet = [0.49, 0.435, 0.415, 0.405];
    inFeet.forEach((feet, k) => {
      expect(Math.abs(ROLL_COEFFICIENTS[k]!.f * Math.sqrt(0.3048) - feet)).toBeLessThan(0.005);
    });
  });

  it('give the period of the pendulum formula', () => {
    // T = 2 pi k / sqrt(g GM): k 4 m, GM 0.6 m: 10.4 s, a textbook example; f B = 2 pi k / sqrt(g)
    const fB = (2 * Math.PI * 4) / Math.sqrt(9.80665);
    expect(fB / Math.sqrt(0.6)).toBeCloseTo(10.4, 1);
    expect(gmOfPeriod(fB / 8, 8, fB / Math.sqrt(0.6))).toBeCloseTo(0.6, 12);
    // T = B means GM = f^2 (calculated): 0.77 at 0.88
    expect(gmOfPeriod(0.88, 6, 6)).toBeCloseTo(0.7744, 12);
  });

  it('give C as the Spanish decree has it', () => {
    // C = 0.373 + 0.023 B/d - 0.043 L/100 (RD 543/2007 annex II 8), by hand for B 5, d 2, L 20
    expect(rollC(5, 2, 20)).toBeCloseTo(0.373 + 0.0575 - 0.0086, 12);
  });

  it('give her own coefficient with the uncertainty of both', () => {
    const gm = { value: 0.81, standardUncertainty: 0.0162, degreesOfFreedom: 6 };
    const period = { value: 5, standardUncertainty: 0.005, degreesOfFreedom: 20 };
    const own = ownCoefficient(period, gm, 5);
    expect(own.value).toBeCloseTo(0.9, 12);
    // half of 2 %, and 0.1 % of the period
    expect(own.standardUncertainty / own.value).toBeCloseTo(Math.hypot(0.01, 0.001), 9);
    expect(own.degreesOfFreedom).toBeCloseTo(6.12, 1);
    expect(gmOfPeriod(own.value, 5, 5)).toBeCloseTo(0.81, 12);
  });
});
