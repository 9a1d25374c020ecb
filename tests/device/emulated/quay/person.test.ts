import { describe, expect, it } from 'vitest';
import { LONGEST_WALK_S, walkMomentTM } from '#device/emulated/quay/person.ts';

describe('a walking person', () => {
  it('leaves the mark, stands elsewhere and comes back to it', () => {
    for (const side of [0.1, 0.9]) {
      const draw = (which: number) => (which === 2 ? side : 0.5);
      expect(walkMomentTM(0, draw)).toBe(0);
      expect(walkMomentTM(LONGEST_WALK_S, draw)).toBe(0);
      const there = walkMomentTM(12, draw);
      // 85 kg, 1.7 m off.
      expect(Math.abs(there)).toBeCloseTo(0.085 * 1.7, 12);
      expect(Math.sign(there)).toBe(side < 0.5 ? -1 : 1);
    }
  });

  it('is back within the longest walk whatever is drawn', () => {
    for (const one of [0, 0.5, 1]) {
      for (const other of [0, 0.5, 1]) {
        const draw = (which: number) => (which === 3 ? other : one);
        expect(walkMomentTM(LONGEST_WALK_S, draw)).toBeCloseTo(0, 12);
      }
    }
  });
});
