import { expect, test } from 'vitest';
import type { EntryLine } from '#core/record/entry-line.ts';
import { entryRefusal } from '#core/session/entry-refusal.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { entered } from '../../support/entries.ts';

const BOX = {
  kind: 'rectangular',
  fromXM: 2,
  toXM: 4,
  fromYM: -1,
  toYM: 1,
  fromZM: 0.5,
  toZM: 1.5,
} as const;
const ITEM = { massT: 0.08, massUncertaintyT: 0.005, placeUncertaintyM: 0.05 };
const AT = { xM: 5, yM: 0, zM: 2 };
const HULL = { file: 'lines.csv', text: 'x', volumeUncertaintyShare: 0, kmUncertaintyM: 0 };

const found = (entry: EntryLine) => entryRefusal(aDay(), entry)?.report.found ?? null;

test.each<[string, EntryLine, RegExp]>([
  [
    'a tank with both a volume and a sounding',
    entered('tank', 'fuel', {
      densityTM3: 0.84,
      shape: BOX,
      volumeM3: 1,
      sounding: { ...AT, depthM: 0.3 },
    }),
    /either a volume or a sounding/,
  ],
  [
    'a tank turned inside out',
    entered('tank', 'fuel', { densityTM3: 0.84, shape: { ...BOX, toXM: 1 }, volumeM3: 1 }),
    /tank, x from and to/,
  ],
  [
    'a thing relocated to nowhere',
    entered('item', 'pump', { ...ITEM, kind: 'relocate', at: AT }),
    /needs the place/,
  ],
  [
    'a thing taken off to somewhere',
    entered('item', 'pump', { ...ITEM, kind: 'deduct', at: AT, to: AT }),
    /only a thing to be relocated/,
  ],
  ['a weight nobody has', entered('weight', 'Z', { massT: 0.5, by: 'B. Heron' }), /called Z/],
  [
    'a distance of a weight that stood still',
    entered('distance', '1 D', { state: 1, weight: 'D', distanceM: 3.6, by: 'B. Heron' }),
    /D is not moved by shift 1/,
  ],
  ['the zero of no instrument', entered('zero', 'mast', { zeroDeg: 0.1 }), /no instrument mast/],
  [
    'tables of an unknown water',
    entered('hull', 'hull', { ...HULL, form: 'tables', knText: null, densityKgM3: null }),
    /need the density/,
  ],
  [
    'lines with a density',
    entered('hull', 'hull', { ...HULL, form: 'offsets', knText: null, densityKgM3: 1025 }),
    /belong to tables only/,
  ],
])('%s is refused with why', (_, entry, why) => {
  expect(found(entry)).toMatch(why);
});

test('what is right goes in', () => {
  expect(found(entered('zero', 'fore', { zeroDeg: 0.002 }))).toBeNull();
  expect(found(entered('weight', 'A', { massT: 0.501, by: 'B. Heron' }))).toBeNull();
  expect(
    found(entered('tank', 'fuel', { densityTM3: 0.84, shape: BOX, volumeM3: 0.7 })),
  ).toBeNull();
  expect(found(entered('item', 'pump', { ...ITEM, kind: 'relocate', at: AT, to: AT }))).toBeNull();
  const distance = { state: 1, weight: 'A', distanceM: 3.61, by: 'B. Heron' };
  expect(found(entered('distance', '1 A', distance))).toBeNull();
});
