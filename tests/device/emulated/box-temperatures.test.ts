import { describe, expect, it } from 'vitest';
import { createBoxTemperatures } from '#device/emulated/box-temperatures.ts';

describe('temperatures of the boxes', () => {
  it('are the same for the same seed, each box its own, a plausible autumn day', () => {
    const one = createBoxTemperatures(1);
    const again = createBoxTemperatures(1);
    for (const timeS of [0, 100, 7200]) {
      expect(one('fore', timeS)).toBe(again('fore', timeS));
      expect(one('fore', timeS)).not.toBe(one('aft', timeS));
      expect(Math.abs(one('fore', timeS) - 13.5)).toBeLessThan(5);
    }
  });

  it('warm up by less than a kelvin and never jump', () => {
    const one = createBoxTemperatures(3);
    for (let timeS = 0; timeS < 8000; timeS += 10) {
      expect(Math.abs(one('aft', timeS + 10) - one('aft', timeS))).toBeLessThan(0.03);
    }
  });
});
