import type { EntryLine } from '#core/record/entry-line.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { FLOATING } from '#tests/core/session/a-floating-day.ts';
import { entered, surveyOf } from './entries.ts';

const at = { xM: 7, yM: 0.4, zM: 2.2 };

/** Rows of every sheet, so that a report has something to say at each of its places. */
export const EVERY_SHEET: EntryLine[] = [
  ...FLOATING,
  entered('statement', 'authority', { text: 'Harbour office of Kettle Sound' }),
  entered('statement', 'variances-accepted', { text: 'One pendulum is enough.' }),
  entered('check', 'lines-slack', { holds: true, note: '' }),
  entered('check', 'free-swing', { holds: false, note: 'a fender touched' }),
  entered('check', 'lines-slack', { holds: true, note: 'all four' }, { occasion: 'closing' }),
  entered('mark', 'aft', {
    side: 'port',
    xM: 0.4,
    halfBreadthM: 0.1,
    draughtM: 1.91,
    zeroHeightM: 0,
  }),
  entered('tank', 'Fuel port', {
    densityTM3: 0.84,
    shape: {
      kind: 'rectangular',
      ...{ fromXM: 3, toXM: 5, fromYM: -2, toYM: -1, fromZM: 0.8, toZM: 1.6 },
    },
    sounding: { xM: 4, yM: -1.5, zM: 0.8, depthM: 0.41 },
  }),
  entered('item', 'Rope on deck', {
    kind: 'deduct',
    massT: 0.35,
    massUncertaintyT: 0.02,
    at,
    placeUncertaintyM: 0.1,
    note: 'wet',
  }),
  entered('item', 'Winch', {
    kind: 'to-be-fitted',
    massT: 0.9,
    massUncertaintyT: 0.05,
    at,
    placeUncertaintyM: 0.05,
  }),
  entered('space', 'engine bilge', { sounded: true, opened: true, by: 'B. Hale' }),
  entered('matter', 'permanent-ballast', { agreed: 'in', note: 'pigs under the hold' }),
  entered('agreed', 'A. Rowan', { as: 'architect' }),
  entered('weight', 'A', { massT: 0.5005, by: 'B. Hale' }),
  entered('distance', '1 A', { state: 1, weight: 'A', distanceM: 3.602, by: 'B. Hale' }),
  entered(
    'freeboard',
    'port 1',
    {
      side: 'port',
      xM: 1,
      halfBreadthM: 2.3,
      heightM: 2.7,
      freeboardM: 0.802,
    },
    { occasion: 'closing' },
  ),
  entered(
    'water',
    'amidships',
    { densityKgM3: 1023.5, temperatureC: null },
    { occasion: 'closing' },
  ),
];

export function aSurveyedDay(wishes: Parameters<typeof aDay>[0] = {}): SessionState {
  return { ...aDay(wishes), survey: surveyOf(EVERY_SHEET) };
}
