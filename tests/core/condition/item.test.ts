import { expect, test } from 'vitest';
import { itemMoments, WET_NET_SHARE } from '#core/condition/item.ts';

test('a wet net weighs 15 % more where it lies', () => {
  const net = { item: 'net', use: 'gear' as const, massT: 2, at: { xM: 1, yM: -0.5, zM: 3 } };
  expect(itemMoments(net)).toEqual({ massT: 2, xTM: 2, yTM: -1, zTM: 6 });
  expect(itemMoments({ ...net, wetShare: WET_NET_SHARE }).zTM).toBeCloseTo(6.9, 12);
});
