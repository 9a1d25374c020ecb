import { describe, expect, it } from 'vitest';
import { GrowingBlock } from '#core/steadiness/growing-block.ts';

describe('growing block', () => {
  it('gives the mean of four samples', () => {
    const growing = new GrowingBlock();
    expect([1, 2, 3].map((heel) => growing.add(7, heel))).toEqual([null, null, null]);
    expect(growing.add(7, 6)).toBe(3);
  });

  it('is missing with one sample missing, or when the next begins before it is full', () => {
    const growing = new GrowingBlock();
    for (const heel of [1, null, 3]) growing.add(7, heel);
    expect(growing.add(7, 4)).toBeNaN();
    growing.add(8, 1);
    expect(growing.closeBefore(8)).toBeNull();
    expect(growing.closeBefore(9)).toBeNaN();
    expect(growing.closeBefore(9)).toBeNull();
    growing.add(9, 1);
    growing.forget();
    expect(growing.closeBefore(10)).toBeNull();
  });
});
