import { describe, expect, it } from 'vitest';
import { levelMmFromVolts, loopIsSound, voltsFromLevelMm } from '#core/part/current-loop-level.ts';

describe('a level transmitter on a current loop', () => {
  it('is empty at 4 mA and full at 20 mA over 150 ohm', () => {
    expect(levelMmFromVolts(0.6)).toBeCloseTo(0, 9);
    expect(levelMmFromVolts(3)).toBeCloseTo(1000, 9);
    expect(levelMmFromVolts(0.3)).toBeCloseTo(-125, 9);
  });

  it('has the step of 0.052 mm a count of an ADS1115 at 4.096 V', () => {
    expect(levelMmFromVolts(0.6 + 125e-6) - levelMmFromVolts(0.6)).toBeCloseTo(0.0521, 4);
  });

  it('goes back and forth, and knows a broken loop', () => {
    for (const levelMm of [0, 1, 480, 1000]) {
      expect(levelMmFromVolts(voltsFromLevelMm(levelMm))).toBeCloseTo(levelMm, 9);
    }
    expect(loopIsSound(0)).toBe(false);
    expect(loopIsSound(150 * 0.0215)).toBe(false);
    expect(loopIsSound(voltsFromLevelMm(0))).toBe(true);
    expect(loopIsSound(voltsFromLevelMm(1000))).toBe(true);
  });
});
