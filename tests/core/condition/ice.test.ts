import { expect, test } from 'vitest';
import { ICE_RD_543_2007, iceItems } from '#core/condition/ice.ts';
import { itemMoments } from '#core/condition/item.ts';
import { momentsTogether } from '#core/survey/mass-moments.ts';

const AREAS = {
  decks: [{ name: 'working deck', areaM2: 40, at: { xM: 5, yM: 0, zM: 2.2 } }],
  sides: [{ name: 'wheelhouse', areaM2: 10, at: { xM: 10, zM: 3.5 } }],
};

// RD 543/2007 annex II 6(a): 30 kg/m2 on decks, 7.5 on each side, +5 % area and +10 % moment.
test('ice of Spain on decks and sides', () => {
  const items = iceItems(AREAS, ICE_RD_543_2007, 'usual');
  expect(items[0]!.massT).toBeCloseTo(1.2, 12);
  expect(items[1]!.massT).toBeCloseTo(0.15 * 1.05, 12);
  expect(itemMoments(items[1]!).zTM).toBeCloseTo(0.15 * 3.5 * 1.1, 12);
  const twice = iceItems(AREAS, ICE_RD_543_2007, 'north-west-atlantic');
  const whole = (all: typeof items) => momentsTogether(all.map(itemMoments)).massT;
  expect(whole(twice)).toBeCloseTo(2 * whole(items), 12);
});
