import { describe, expect, it } from 'vitest';
import {
  countsFromTemperatureC,
  gFromCounts,
  gPerCount,
  temperatureCFromCounts,
} from '#core/part/iis2iclx.ts';

describe('IIS2ICLX', () => {
  it('has the sensitivities of DS13005 Rev 7, Table 2', () => {
    expect([0.5, 1, 2, 3].map(gPerCount)).toEqual([0.015e-3, 0.031e-3, 0.061e-3, 0.122e-3]);
    expect(() => gPerCount(4)).toThrow(RangeError);
  });

  it('turns counts to the angle within half a count of the worked vectors', () => {
    // sin(angle) / 0.015 mg, rounded: calculated from the sheet's sensitivity.
    const vectors: [number, number][] = [
      [0.01, 12],
      [1, 1163],
      [2, 2327],
      [-1.5, -1745],
      [4, 4650],
    ];
    for (const [angleDeg, counts] of vectors) {
      const sine = Math.sin((angleDeg * Math.PI) / 180);
      expect(Math.abs(gFromCounts(counts) - sine)).toBeLessThanOrEqual(0.5 * 0.015e-3);
    }
  });

  it('reads 25 degC at zero counts and 256 counts a kelvin', () => {
    // 20 degC is FB00 hexadecimal in two's complement.
    expect(temperatureCFromCounts((0xfb00 << 16) >> 16)).toBe(20);
    expect(countsFromTemperatureC(20)).toBe(-1280);
    expect(temperatureCFromCounts(0)).toBe(25);
  });
});
