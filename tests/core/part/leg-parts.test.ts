import { expect, test } from 'vitest';
import { countsFromPressurePa } from '#core/part/abp2.ts';
import { legPart } from '#core/part/leg-parts.ts';
import { pressurePaOfHeight } from '#core/part/water-column.ts';

test('an ABP2 tells the height over its foot, once its range is known', () => {
  const part = legPart('abp2')!;
  const asBuilt = { pressureRangePa: [0, 6000] as [number, number] };
  const counts = countsFromPressurePa(pressurePaOfHeight(400), [0, 6000]);
  expect(part.levelMm([counts], asBuilt)).toBeCloseTo(400, 9);
  expect(part.levelMm([counts], { ...asBuilt, liquidKgM3: 1025 })).toBeCloseTo(
    400 * (998.2 / 1025),
    9,
  );
  expect(part.lacks(undefined)).toMatch(/pressureRangePa/);
  expect(() => part.levelMm([counts], undefined)).toThrow(RangeError);
});

test('an unsound loop or supply has no level', () => {
  expect(legPart('ads1115')!.levelMm([100], undefined)).toBeNull();
  expect(legPart('mpx5010')!.levelMm([5333, 20_000], undefined)).toBeNull();
  expect(legPart('mpx5010')!.levelMm([5333, 26_667], undefined)).toBeCloseTo(
    ((5333 / 26_667 - 0.04) / 0.09e-3 / 9.789) * 1,
    1,
  );
  expect(legPart('iis2iclx')).toBeUndefined();
});
