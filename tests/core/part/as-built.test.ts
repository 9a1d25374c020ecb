import { expect, test } from 'vitest';
import { asBuilt } from '#core/part/as-built.ts';

test('takes what an order code says and nothing else', () => {
  expect(asBuilt.parse({ pressureRangePa: [0, 6000], liquidKgM3: 1012 })).toEqual({
    pressureRangePa: [0, 6000],
    liquidKgM3: 1012,
  });
  expect(asBuilt.parse({ temperatureInterceptCounts: 1852 })).toBeDefined();
});

test.each([
  { pressureRangePa: [6000, 0] },
  { pressureRangePa: [0, 0] },
  { pressureRangePa: [0, Number.POSITIVE_INFINITY] },
  { temperatureInterceptCounts: 0 },
  { liquidKgM3: 1 },
  { colour: 'red' },
])('refuses %j', (value) => {
  expect(asBuilt.safeParse(value).success).toBe(false);
});
