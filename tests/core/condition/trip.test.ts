import { describe, expect, it } from 'vitest';
import { loadedCondition } from '#core/condition/condition.ts';
import { lightshipInput } from '#core/condition/lightship-input.ts';
import { type SpaceUse, spacesFrom } from '#core/condition/space.ts';
import { tripConditions } from '#core/condition/trip.ts';
import { type TripInput, tripInput } from '#core/condition/trip-input.ts';

const shape = (fromXM: number) => ({
  kind: 'rectangular' as const,
  fromXM,
  toXM: fromXM + 2,
  fromYM: -1,
  toYM: 1,
  fromZM: 0.5,
  toZM: 1.5,
});
const space = (name: string, use: SpaceUse, fromXM: number, densityTM3: number) => ({
  space: name,
  use,
  densityTM3,
  shape: shape(fromXM),
});
const SPACES = spacesFrom([
  space('fuel', 'fuel', 1, 0.85),
  space('water', 'fresh-water', 11, 1),
  space('hold', 'fish-hold', 4, 0.6),
]);
const at = { xM: 5, yM: 0, zM: 1 };
const all = ['departure', 'leaving-grounds', 'arrival', 'arrival-part-catch'];
const TRIP: TripInput = tripInput.parse({
  trip: 'four days trawling',
  items: [
    { item: 'crew', use: 'crew', massT: 0.4, at, aboard: all },
    { item: 'ice', use: 'ice-in-hold', massT: 2, at, aboard: ['departure'] },
    { item: 'nets', use: 'gear', massT: 1, wetShare: 0.15, at, aboard: ['arrival'] },
  ],
  catch: { items: [{ item: 'boxes', use: 'catch', massT: 5, at }] },
  worst: {
    words: 'cod end at the block',
    like: 'leaving-grounds',
    items: [{ item: 'cod end', use: 'catch', massT: 0.8, at: { xM: 1, yM: 1, zM: 6 } }],
  },
  flooded: { space: 'hold' },
  ice: {
    zone: 'usual',
    areas: { decks: [{ name: 'deck', areaM2: 40, at }], sides: [] },
  },
  changes: [],
  wouldCarry: [],
});
const light = lightshipInput.parse({
  mass: { value: 40 },
  lcg: { value: 6.5 },
  tcg: { value: 0 },
  vcg: { value: 1.8 },
});
const massOf = (kind: string, trip = TRIP): number => {
  const found = tripConditions(trip, SPACES, []).conditions.find((one) => one.kind === kind)!;
  const loaded = loadedCondition({
    name: found.condition,
    lightship: light,
    spaces: SPACES,
    fillings: found.fillings,
    items: found.items,
  });
  return loaded.moments.massT - 40;
};

describe('the standard set of a trip', () => {
  // RD 543/2007 annex II 3(a): 100 %; full catch and 35 %; full and 10 %; 20 % and 10 %.
  it('has the shares of the decree, by hand', () => {
    const consumables = 4 * 0.85 + 4;
    expect(massOf('departure')).toBeCloseTo(consumables + 0.4 + 2, 10);
    expect(massOf('leaving-grounds')).toBeCloseTo(0.35 * consumables + 0.4 + 5, 10);
    expect(massOf('arrival')).toBeCloseTo(0.1 * consumables + 0.4 + 5 + 1.15, 10);
    expect(massOf('arrival-part-catch')).toBeCloseTo(0.1 * consumables + 0.4 + 1, 10);
    expect(massOf('worst')).toBeCloseTo(massOf('leaving-grounds') + 0.8, 10);
    expect(massOf('with-ice')).toBeCloseTo(massOf('worst') + 1.2, 10);
    // 2(c): the hold half full of sea water, 75 % of the consumables, nothing in it
    expect(massOf('hold-flooded')).toBeCloseTo(0.75 * consumables + 0.4 + 2 * 1.025, 10);
  });

  it('takes what was told of the consumables instead', () => {
    const consumables = [{ use: 'fuel' as const, leavingGroundsShare: 0.5, arrivalShare: 0.3 }];
    const told = { ...TRIP, consumables };
    expect(massOf('arrival', told) - massOf('arrival')).toBeCloseTo(0.2 * 3.4, 10);
  });

  it('asks what is left open, and what they would like to carry is a condition', () => {
    const open: TripInput = {
      ...TRIP,
      items: TRIP.items.filter(({ use }) => use !== 'crew').map(({ wetShare: _, ...one }) => one),
      worst: null,
      flooded: null,
      ice: null,
      changes: [
        { what: 'new winch', massT: null, at: null },
        { what: 'ballast out', massT: -1, at },
      ],
      wouldCarry: [
        { like: 'arrival', items: [{ item: 'pots', use: 'deck-cargo', massT: 1.5, at }] },
      ],
    };
    const { conditions, questions } = tripConditions(open, SPACES, ['fish hold hatch']);
    expect(questions.map(({ code, where }) => `${code}: ${where}`)).toEqual([
      'change-not-weighed: new winch',
      'change-not-in-lightship: ballast out',
      'worst-not-said: four days trawling',
      'wet-gear: nets',
      'no-crew: four days trawling',
      'hatch-open: fish hold hatch',
      'no-ice: four days trawling',
    ]);
    expect(conditions.at(-1)).toMatchObject({ condition: 'arrival, with pots', kind: 'working' });
    expect(massOf('working', open)).toBeCloseTo(massOf('arrival', open) + 1.5, 10);
    expect(tripConditions(TRIP, SPACES, []).questions).toEqual([]);
  });
});
