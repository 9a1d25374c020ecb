import { describe, expect, it } from 'vitest';
import { conversionS, voltsFromCounts, voltsPerCount } from '#core/part/ads1115.ts';

describe('ADS1115', () => {
  it('has the sizes of a count of the sheet', () => {
    const microvolts = [0, 1, 2, 3, 4, 5, 6, 7].map((field) => voltsPerCount(field) * 1e6);
    expect(microvolts).toEqual([187.5, 125, 62.5, 31.25, 15.625, 7.8125, 7.8125, 7.8125]);
    expect(() => voltsPerCount(8)).toThrow(RangeError);
    expect(() => voltsPerCount(-1)).toThrow(RangeError);
  });

  it('turns counts to volts at 4.096 V full scale', () => {
    expect(voltsFromCounts(-32768)).toBe(-4.096);
    expect(voltsFromCounts(16384)).toBe(2.048);
  });

  it('takes an eighth of a second at the slowest and 1/860 at the fastest', () => {
    expect(conversionS(0)).toBe(1 / 8);
    expect(conversionS(4)).toBe(1 / 128);
    expect(conversionS(7)).toBe(1 / 860);
    expect(() => conversionS(8)).toThrow(RangeError);
  });
});
