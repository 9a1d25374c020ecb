import fc from 'fast-check';
import { expect, test } from 'vitest';
import { changedLightship, growthOf, periodsOf, yearsBetween } from '#core/stability/growth.ts';
import { HISTORY, tested } from './a-history.ts';

test('of two tests the growth a year is their difference over the years between', () => {
  expect(yearsBetween('2006-05-04', '2016-05-04')).toBeCloseTo(10, 2);
  const mass = growthOf(HISTORY).find(({ figure }) => figure === 'mass')!;
  expect(mass.change).toBe(1.5);
  expect(mass.aYear.value).toBeCloseTo(0.15, 4);
  // Both tests are uncertain by 0.2 t: root two of it over ten years.
  expect(mass.aYear.standardUncertainty).toBeCloseTo((0.2 * Math.SQRT2) / 10, 4);
  expect(mass.moreThanChance).toBe(true);
  expect(growthOf(HISTORY).find(({ figure }) => figure === 'vcg')!.moreThanChance).toBe(false);
});

test('one test shows no growth, and unstated uncertainties leave chance open', () => {
  expect(growthOf({ ...HISTORY, tests: [tested('2006-05-04')] })).toEqual([]);
  const unsure = { ...HISTORY, tests: [tested('2006-05-04'), tested('2016-05-04', 1, 0, false)] };
  expect(growthOf(unsure).map(({ moreThanChance }) => moreThanChance)).toEqual([
    null,
    null,
    null,
    null,
  ]);
  expect(growthOf(unsure)[0]!.aYear.standardUncertainty).toBeNull();
});

test('tests that lie on a line give its slope, whatever their weights', () => {
  fc.assert(
    fc.property(fc.double({ min: -0.5, max: 0.5, noNaN: true }), (aYear) => {
      const days = ['2001-03-01', '2008-07-15', '2013-01-02', '2024-11-30'];
      const tests = days.map((on) => tested(on, aYear * yearsBetween(days[0]!, on)));
      expect(growthOf({ ...HISTORY, tests })[0]!.aYear.value).toBeCloseTo(aYear, 9);
    }),
  );
});

test('a thing that came and went changes nothing but counts, a moved one moves the centre', () => {
  const place = { xM: 2, yM: 0, zM: 4 };
  const there = { xM: 10, yM: 0, zM: 1 };
  const both = changedLightship({
    ...HISTORY,
    changes: [
      { what: 'winch', massT: 0.5, from: null, to: place },
      { what: 'winch', massT: 0.5, from: place, to: null },
    ],
  });
  expect(both.massT).toBeCloseTo(41.5, 12);
  expect(both.vcgM).toBeCloseTo(2.3, 12);
  expect(both.aggregateT).toBe(1);
  const moved = changedLightship({
    ...HISTORY,
    changes: [{ what: 'anchor', massT: 0.5, from: place, to: there }],
  });
  expect(moved.massT).toBeCloseTo(41.5, 12);
  expect(moved.lcgM).toBeCloseTo(6.4 + (0.5 * 8) / 41.5, 12);
  expect(moved.vcgM).toBeCloseTo(2.3 - (0.5 * 3) / 41.5, 12);
});

test('periods are compared in like conditions only', () => {
  const roll = (periodS: number, condition = 'light') => ({
    roll: { periodS, standardUncertaintyS: 0.03, condition },
  });
  const tests = [
    { ...tested('2006-05-04'), ...roll(4.6) },
    { ...tested('2010-05-04'), ...roll(5.5, 'loaded') },
    { ...tested('2016-05-04'), ...roll(4.8) },
  ];
  const [light, ...others] = periodsOf({ ...HISTORY, tests });
  expect(others).toEqual([]);
  expect(light!.differenceS.value).toBeCloseTo(0.2, 12);
  expect(light!.gmLostShare).toBeCloseTo(1 - (4.6 / 4.8) ** 2, 12);
  expect(light!.moreThanChance).toBe(true);
});

test('changes that take off all of her, or more, are refused', () => {
  const off = (massT: number) => () =>
    changedLightship({
      ...HISTORY,
      changes: [{ what: 'all', massT, from: { xM: 6, yM: 0, zM: 2 }, to: null }],
    });
  expect(off(41)).not.toThrow();
  expect(off(41.5)).toThrow(/input-contradiction.*history\.changes/);
  expect(off(60)).toThrow(/leave a lightship of -18\.5 t/);
});

test('no change is no growth', () => {
  const same = [tested('2006-05-04'), tested('2011-05-04'), tested('2016-05-04')];
  for (const { change, aYear, moreThanChance } of growthOf({ ...HISTORY, tests: same })) {
    expect([change, moreThanChance]).toEqual([0, false]);
    expect(aYear.value).toBeCloseTo(0, 12);
  }
});
