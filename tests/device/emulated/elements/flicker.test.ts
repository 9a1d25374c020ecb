import { describe, expect, it } from 'vitest';
import { createFlicker } from '#device/emulated/elements/flicker.ts';

describe('flicker noise', () => {
  const flicker = createFlicker(1, 'a');
  const values = Array.from({ length: 400_000 }, (_, k) => flicker(k));
  const mean = (of: readonly number[]) => of.reduce((sum, one) => sum + one, 0) / of.length;
  /** Half the mean square of the differences of neighbouring means over `lengthS`: Allan's variance. */
  const allan = (lengthS: number) => {
    const means: number[] = [];
    for (let k = 0; k + lengthS <= values.length; k += lengthS) {
      means.push(mean(values.slice(k, k + lengthS)));
    }
    return mean(means.slice(1).map((one, k) => (one - means[k]!) ** 2)) / 2;
  };

  it('has variance 1', () => {
    expect(Math.abs(mean(values.map((one) => one * one)) - 1)).toBeLessThan(0.15);
  });

  it('is not lowered by averaging longer, within its octaves', () => {
    const ratio = allan(256) / allan(8);
    // White noise would give 1/32.
    expect(ratio).toBeGreaterThan(0.6);
    expect(ratio).toBeLessThan(1.6);
  });
});
