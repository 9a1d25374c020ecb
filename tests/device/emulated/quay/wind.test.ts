import { describe, expect, it } from 'vitest';
import { gustMS, LONGEST_GUST_S, windMomentTM } from '#device/emulated/quay/wind.ts';

describe('wind', () => {
  it('presses by the square of its speed, to the side it blows to', () => {
    const windage = { areaM2: 36, leverM: 2.5 };
    // 0.5 1.23 1.1 100 = 67.65 Pa; over 36 m2 at 2.5 m: 6.0885 kN m = 0.62085 t m.
    expect(windMomentTM(windage, 10)).toBeCloseTo(0.62085, 5);
    expect(windMomentTM(windage, -10)).toBe(-windMomentTM(windage, 10));
    expect(windMomentTM(windage, 5)).toBeCloseTo(windMomentTM(windage, 10) / 4, 12);
  });

  it('gusts rise, fall and end', () => {
    for (const drawn of [0, 0.5, 1]) {
      const draw = () => drawn;
      const speeds = Array.from({ length: 400 }, (_, k) => gustMS(k * 0.1, draw));
      expect(speeds[0]).toBe(0);
      expect(gustMS(LONGEST_GUST_S, draw)).toBe(0);
      expect(Math.max(...speeds)).toBeCloseTo(3 + 3 * drawn, 1);
      speeds.slice(1).forEach((speed, k) => {
        expect(Math.abs(speed - speeds[k]!)).toBeLessThan(0.5);
      });
    }
  });
});
