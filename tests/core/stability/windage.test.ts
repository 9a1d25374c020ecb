import { expect, test } from 'vitest';
import { waterlineAtDraught } from '#core/hull/waterline.ts';
import { windageOf } from '#core/stability/windage.ts';
import { BOX_HULL } from './box-condition.ts';

test('the box and a house on it, by hand', () => {
  const parts = [{ part: 'house', areaM2: 10, centreZM: 4 }];
  const found = windageOf(BOX_HULL, waterlineAtDraught(1.5), { parts });
  // 20 m x 1.5 m of hull, its middle at 2.25 m
  const centreM = (30 * 2.25 + 10 * 4) / 40;
  expect(found.areaM2).toBeCloseTo(40, 9);
  expect(found.heightOverWaterM).toBeCloseTo(centreM - 1.5, 9);
  expect(found.leverM).toBeCloseTo(centreM - 0.75, 9);
});
