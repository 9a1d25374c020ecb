import { describe, expect, it } from 'vitest';
import { firstFall, firstRise, greatest } from '#core/stability/lever-features.ts';

describe('features of a lever', () => {
  it('find where she comes to rest: upright, listed, lolling or nowhere', () => {
    expect(firstRise(Math.sin, 0, 1)).toBe(0);
    expect(firstRise((heel) => Math.sin(heel - 0.1234), 0, 1)).toBeCloseTo(0.1234, 12);
    // Wall-sided loll: GM -0.1, BM 2: tan^2 = 0.1.
    const loll = (heel: number) => (-0.1 + Math.tan(heel) ** 2) * Math.sin(heel);
    expect(firstRise(loll, 0, 0.6)).toBeCloseTo(Math.atan(Math.sqrt(0.1)), 12);
    expect(firstRise((heel) => -heel - 0.01, 0, 1)).toBeNull();
  });

  it('find where the lever vanishes, only after it was positive', () => {
    expect(firstFall((heel) => Math.sin(2 * heel), 0, Math.PI / 2 + 0.1)).toBeCloseTo(
      Math.PI / 2,
      12,
    );
    expect(firstFall((heel) => -heel, 0, 1)).toBeNull();
    expect(firstFall((heel) => heel, 0, 1)).toBeNull();
    expect(firstFall((heel) => Math.sin(3 * heel), 0.2, 1.2)).toBeCloseTo(Math.PI / 3, 12);
  });

  it('find the summit, at an end too, and the first of two', () => {
    const top = greatest((heel) => Math.sin(2 * heel), 0, 1.5);
    expect(top.heelRad).toBeCloseTo(Math.PI / 4, 6);
    expect(top.leverM).toBeCloseTo(1, 12);
    expect(greatest((heel) => heel, 0.2, 0.5)).toEqual({ heelRad: 0.5, leverM: 0.5 });
    expect(greatest((heel) => -heel, 0.2, 0.5)).toEqual({ heelRad: 0.2, leverM: -0.2 });
    expect(greatest(() => 1, 0, 1).heelRad).toBeLessThan(0.01);
    expect(greatest(Math.sin, 0.3, 0.3)).toEqual({ heelRad: 0.3, leverM: Math.sin(0.3) });
  });
});
