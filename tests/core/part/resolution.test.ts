import { expect, it } from 'vitest';
import { resolutionDeg } from '#core/part/resolution.ts';

it('is one count of the part near upright', () => {
  // 0.015 mg a count (ST DS13005 Rev 7, Table 2): 15e-6 rad.
  expect(resolutionDeg('iis2iclx', null)).toBeCloseTo((15e-6 * 180) / Math.PI, 9);
  // 2.048 V over 32768 counts on 150 ohm (2.4 V for 1000 mm): 0.026 mm, on 3 m half a thousandth.
  expect(resolutionDeg('ads1115', 3)!).toBeLessThan(0.001);
  expect(resolutionDeg('ads1115', 3)! / resolutionDeg('ads1115', 6)!).toBeCloseTo(2, 6);
  expect(resolutionDeg('ads1115', null)).toBeNull();
  expect(resolutionDeg('unheard-of', null)).toBeNull();
});
