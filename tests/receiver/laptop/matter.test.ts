import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isBad } from '#receiver/laptop/matter.ts';

const BOUNDS = { badUnder: 20, wellFrom: 25 };

function changes(values: readonly number[]): number {
  let was = false;
  let count = 0;
  for (const value of values) {
    const is = isBad(value, was, BOUNDS);
    if (is !== was) count += 1;
    was = is;
  }
  return count;
}

describe('isBad', () => {
  it('is bad under the lower bound and well from the upper one, both exactly', () => {
    expect(isBad(20, false, BOUNDS)).toBe(false);
    expect(isBad(19.999, false, BOUNDS)).toBe(true);
    expect(isBad(24.999, true, BOUNDS)).toBe(true);
    expect(isBad(25, true, BOUNDS)).toBe(false);
  });

  it('changes once at most however a figure trembles between the bounds', () => {
    const between = fc.double({ min: 15, max: 24.99, noNaN: true });
    fc.assert(
      fc.property(fc.array(between, { maxLength: 200 }), (values) => {
        expect(changes(values)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('forgets nothing: whatever came before, beyond the bounds the answer is the same', () => {
    fc.assert(
      fc.property(fc.boolean(), fc.double({ min: 0, max: 100, noNaN: true }), (was, value) => {
        if (value < BOUNDS.badUnder) expect(isBad(value, was, BOUNDS)).toBe(true);
        if (value >= BOUNDS.wellFrom) expect(isBad(value, was, BOUNDS)).toBe(false);
      }),
    );
  });
});
