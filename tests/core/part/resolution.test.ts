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

it('is known of every part that can be read', () => {
  // 256 000 and 1/0.061e-3 counts a g; on 8 m a millimetre is 0.00716 degree.
  expect(resolutionDeg('adxl355', null)).toBeCloseTo(180 / Math.PI / 256_000, 9);
  expect(resolutionDeg('lsm6dso', null)).toBeCloseTo((61e-6 * 180) / Math.PI, 9);
  // 187.5 uV of 450 mV/kPa, 9.789 Pa a millimetre: 0.0426 mm.
  expect(resolutionDeg('mpx5010', 8)).toBeCloseTo(0.0426 * 0.007_162, 6);
  const range = { pressureRangePa: [0, 6000] as [number, number] };
  expect(resolutionDeg('abp2', 8, range)!).toBeLessThan(1e-6);
  // Without its range nobody knows what a count is.
  expect(resolutionDeg('abp2', 8)).toBeNull();
});
