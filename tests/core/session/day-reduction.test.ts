import { expect, test } from 'vitest';
import { dayReduction } from '#core/session/day-reduction.ts';
import { hullAfloatOfText } from '#core/session/hull-of-text.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { entered, surveyOf } from '../../support/entries.ts';
import { FLOATING, OFFSETS_HULL } from './a-floating-day.ts';

test('with hull, freeboards and water the displacement is that of the lines', () => {
  const day = { ...aDay(), survey: surveyOf(FLOATING) };
  const { reduction, refused, byHull } = dayReduction(day);
  expect(refused).toBeNull();
  expect(byHull).toBe(true);
  const lines = hullAfloatOfText(OFFSETS_HULL, 15).immersionOf({
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
