import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { median, robustSpread } from '#core/signal/robust.ts';

describe('robust location and spread', () => {
  it('takes the middle value, of an even count the mean of two', () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([])).toBeNaN();
  });

  it('is the standard deviation of normal values, and hardly moves for a few wild ones', () => {
    const random = createRandom(2);
    const values = Array.from({ length: 4000 }, () => random.normal(0.3));
    expect(robustSpread(values)).toBeCloseTo(0.3, 1);
    const wild = [...values, ...Array.from({ length: 100 }, () => 1e6)];
    expect(Math.abs(robustSpread(wild) - robustSpread(values))).toBeLessThan(0.02);
  });
});
