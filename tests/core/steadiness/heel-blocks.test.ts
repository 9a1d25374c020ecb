import { describe, expect, it } from 'vitest';
import { blockMeans, blocksWithRinging } from '#core/steadiness/heel-blocks.ts';

describe('heel blocks', () => {
  it('are means of four samples at 10 Hz; one missing sample makes the block missing', () => {
    const means = blockMeans([1, 2, 3, 4, 5, null, 7, 8, 1, 1, 1, 1, 9], 0.1);
    expect(Array.from(means)).toEqual([2.5, Number.NaN, 1]);
  });

  it('let a ringing begin at the first block and after several missing ones, of half the range', () => {
    const gap = Number.NaN;
    const heel = [gap, 1, 3, 2, gap, gap, 2, 2, gap, gap, gap, 5, 6];
    const { ringingDeg } = blocksWithRinging(heel);
    const began = Array.from(ringingDeg).flatMap((size, k) => (Number.isNaN(size) ? [] : [k]));
    expect(began).toEqual([1, 11]);
    expect(ringingDeg[11]).toBe(0.5);
  });
});
