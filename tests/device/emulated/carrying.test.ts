import { describe, expect, it } from 'vitest';
import {
  CARRY_S,
  type Carry,
  carriedPlace,
  landedS,
  landingBumpTM,
} from '#device/emulated/carrying.ts';

const carry: Carry = {
  weight: 'A',
  startS: 100,
  from: { xM: 3, yM: -2.1, zM: 2 },
  to: { xM: 3, yM: 2.1, zM: 2 },
};

describe('carrying a weight', () => {
  it('begins at its mark and ends at the other', () => {
    expect(carriedPlace(carry, 90)).toEqual(carry.from);
    expect(carriedPlace(carry, 100)).toEqual(carry.from);
    expect(carriedPlace(carry, landedS(carry))).toEqual(carry.to);
    expect(landedS(carry) - carry.startS).toBe(CARRY_S);
  });

  it('acts at the head of the jib while it hangs, and never jumps', () => {
    let before = carriedPlace(carry, 100);
    for (let timeS = 100; timeS < 126; timeS += 0.01) {
      const now = carriedPlace(carry, timeS);
      expect(Math.abs(now.yM - before.yM)).toBeLessThan(0.01);
      expect(Math.abs(now.zM - before.zM)).toBeLessThan(0.12);
      before = now;
    }
    expect(carriedPlace(carry, 112).zM).toBeGreaterThan(5);
  });

  it('bumps once at landing: the impulse of its stopped speed at its place', () => {
    const massT = 0.25;
    let impulse = 0;
    const stepS = 0.001;
    for (let timeS = 120; timeS < 130; timeS += stepS) {
      impulse += landingBumpTM(carry, massT, timeS, 9.81) * stepS;
    }
    // Mass times 0.12 m/s over gravity, at 2.1 m.
    expect(impulse).toBeCloseTo((0.25 * 0.12 * 2.1) / 9.81, 5);
    expect(landingBumpTM(carry, massT, 124.9, 9.81)).toBe(0);
  });
});
