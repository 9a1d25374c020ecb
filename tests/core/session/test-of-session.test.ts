import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { EntryLine } from '#core/record/entry-line.ts';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import { testInput } from '#core/reduction/test-input.ts';
import { dayReduction } from '#core/session/day-reduction.ts';
import { hullAfloatOfText, hullOfText } from '#core/session/hull-of-text.ts';
import { resultOfSession } from '#core/session/result.ts';
import { testOfSession } from '#core/session/test-of-session.ts';
import { enteredHull, withoutHullText } from '#core/session/told-survey.ts';
import { aDay, DAY_GM } from '#tests/core/session/a-day.ts';
import { entered, surveyOf } from '../../support/entries.ts';

const OFFSETS = readFileSync(
  new URL('../../../device/emulated/marram-offsets.csv', import.meta.url),
  'utf8',
);
const HULL = {
  form: 'offsets',
  file: 'lines.csv',
  text: OFFSETS,
  knText: null,
  densityKgM3: null,
  volumeUncertaintyShare: 0.004,
  kmUncertaintyM: 0.004,
} as const;

/** Upright and level at 1.9 m over the baseline: the points are 2.7 m up. */
const FLOATING: EntryLine[] = [
  entered('hull', 'hull', HULL),
  entered('vessel', 'vessel', {
    lengthM: 15,
    readingUncertaintyM: 0.004,
    hydrometerUncertaintyKgM3: 0.5,
    freeSurfaceUncertaintyShare: 0.1,
  }),
  ...[1, 4, 7.5, 11, 14].flatMap((xM) =>
    (['port', 'starboard'] as const).map((side) =>
      entered('freeboard', `${side} ${xM}`, {
        side,
        xM,
        halfBreadthM: 2.3,
        heightM: 2.7,
        freeboardM: 0.8,
      }),
    ),
  ),
  entered('water', 'amidships', { densityKgM3: 1024, temperatureC: 11 }),
];

test('a day without a hull is the same test by hand: its GM and KG are those of the day', () => {
  const day = aDay();
  const written = testOfSession(day);
  expect(testInput.safeParse(written).error).toBeUndefined();
  const byHand = reduceTest(written);
  const byDay = resultOfSession(day);
  expect(byHand.classical.gmFluid!.value).toBeCloseTo(byDay.classical!.gmFluidM.value, 12);
  expect(byHand.classical.gmFluid!.value).toBeCloseTo(DAY_GM, 10);
  expect(byHand.classical.gmFluid!.standardUncertainty).toBeCloseTo(
    byDay.classical!.gmFluidM.standardUncertainty,
    12,
  );
  expect(byHand.worth).not.toBeNull();
});

test('moves of a state that was not read count for the next one that was', () => {
  const day = aDay();
  const unread = { ...day.states[3]!, reading: null, readingWritten: null, handReadings: [] };
  const written = testOfSession({ ...day, states: day.states.with(3, unread) });
  expect(written.states).toHaveLength(day.states.length - 1);
  expect(reduceTest(written).classical.gmFluid!.value).toBeCloseTo(DAY_GM, 10);
});

test('with hull, freeboards and water the displacement is that of the lines', () => {
  const day = { ...aDay(), survey: surveyOf(FLOATING) };
  const { reduction, refused, byHull } = dayReduction(day);
  expect(refused).toBeNull();
  expect(byHull).toBe(true);
  const lines = hullAfloatOfText(HULL, 15).immersionOf({
    middleM: 1.9,
    heelSlope: 0,
    trimSlope: 0,
    sagM: 0,
  });
  expect(reduction!.float!.displacement.value).toBeCloseTo(lines.volumeM3 * 1.024, 6);
  expect(reduction!.headline).toBe('exact');
  expect(reduction!.exact!.km).toBeCloseTo(lines.kmM, 4);
});

test('choices that need the hull wait for it', () => {
  const survey = surveyOf([entered('choices', 'choices', { official: 'exact' })]);
  expect(dayReduction({ ...aDay(), survey }).reduction?.headline).not.toBe('exact');
});

test('a lightship follows once things aboard are entered', () => {
  const item = {
    kind: 'deduct',
    massT: 0.5,
    massUncertaintyT: 0.01,
    at: { xM: 6, yM: 0, zM: 3 },
    placeUncertaintyM: 0.05,
  } as const;
  const survey = surveyOf([...FLOATING, entered('item', 'rope', item)]);
  const { reduction } = dayReduction({ ...aDay(), survey });
  expect(reduction!.lightship!.mass.value).toBeCloseTo(
    reduction!.float!.displacement.value - 0.5,
    9,
  );
  expect(reduction!.lightship!.provisional).toBe(true);
});

test('why there is no answer is told, not thrown', () => {
  const day = aDay();
  const none = dayReduction({ ...day, test: null });
  expect(none).toMatchObject({ reduction: null, refused: { code: 'input-contradiction' } });
});

test('a bad table names its file and row; a hull file needs its table inside', () => {
  const bad = { ...HULL, text: OFFSETS.replace(/\n[^\n]*\n/, '\nx,y,z\n') };
  expect(() => hullOfText(bad)).toThrow(/lines\.csv/);
  const apart = JSON.stringify({ name: 'H', offsets: 'other.csv', offsetsAre: 'outside' });
  expect(() => hullOfText({ ...HULL, form: 'hull', text: apart })).toThrow(/not the name of a/);
  expect(() => hullOfText({ ...HULL, form: 'hull', text: '{' })).toThrow(/input-not-json/);
});

test('screens are told that there is a hull, and its text once, apart', () => {
  const day = { ...aDay(), survey: surveyOf(FLOATING) };
  expect(enteredHull(day)?.hull.text).toBe(OFFSETS);
  expect(JSON.stringify(withoutHullText(day))).not.toContain('halfBreadthM\\n');
  expect(withoutHullText(day).survey.entries).toHaveLength(day.survey.entries.length);
  expect(withoutHullText(aDay()).survey.entries).toEqual([]);
});
