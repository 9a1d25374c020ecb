import { describe, expect, it } from 'vitest';
import { createLowPass } from '#device/emulated/elements/low-pass.ts';

const gainAt = (frequencyHz: number): number => {
  const filter = createLowPass(104, 10.4);
  let most = 0;
  for (let k = 0; k < 5000; k++) {
    const value = filter.next(Math.sin((2 * Math.PI * frequencyHz * k) / 104));
    if (k > 2500) most = Math.max(most, value);
  }
  return most;
};

describe('the low-pass of a chip', () => {
  it('passes what is slow, halves the power at its corner, stops what is fast', () => {
    expect(gainAt(0.2)).toBeCloseTo(1, 3);
    expect(gainAt(10.4)).toBeCloseTo(Math.SQRT1_2, 2);
    expect(gainAt(40)).toBeLessThan(0.03);
  });

  it('begins settled on its first value', () => {
    const filter = createLowPass(104, 2.6);
    for (let k = 0; k < 100; k++) expect(filter.next(0.3)).toBeCloseTo(0.3, 12);
  });

  it('is no filter when its corner is at half the rate', () => {
    const filter = createLowPass(104, 52);
    expect([1, -1, 5].map((value) => filter.next(value))).toEqual([1, -1, 5]);
    expect(() => createLowPass(104, 0)).toThrow(RangeError);
  });
});
