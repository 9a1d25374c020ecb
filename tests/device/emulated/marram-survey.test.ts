import { expect, test } from 'vitest';
import { entryLine } from '#core/record/entry-line.ts';
import { dayReduction } from '#core/session/day-reduction.ts';
import { entryRefusal } from '#core/session/entry-refusal.ts';
import { EMPTY_SESSION } from '#core/session/fold.ts';
import { hullOfText } from '#core/session/hull-of-text.ts';
import { enteredHull } from '#core/session/told-survey.ts';
import { marramReality } from '#device/emulated/marram.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { marramSurvey } from '#device/emulated/marram-survey.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { surveyOf } from '../../support/entries.ts';

test('every row is of its form and stands in a session; one seed gives one survey', () => {
  const rows = marramSurvey(3);
  expect(rows.map((row) => entryLine.parse(row))).toEqual(rows);
  expect(marramSurvey(3)).toEqual(rows);
  for (const row of rows) expect(entryRefusal(EMPTY_SESSION, row)).toBeNull();
});

test('her hull as a text is her hull', () => {
  const survey = surveyOf(marramSurvey(3));
  const { hull } = enteredHull({ survey })!;
  expect(hullOfText(hull)).toEqual(marramHull());
});

test('the water she was read in gives the displacement she has, inside its uncertainty', () => {
  const ratios = [1, 2, 3, 4, 5, 6].map((seed) => {
    const { reduction, refused } = dayReduction({
      ...aDay(),
      survey: surveyOf(marramSurvey(seed)),
    });
    expect(refused).toBeNull();
    const { displacement } = reduction!.float!;
    expect(displacement.standardUncertainty).toBeLessThan(0.3);
    return (
      (displacement.value - marramReality(seed).form.displacementT) /
      displacement.standardUncertainty
    );
  });
  for (const ratio of ratios) expect(Math.abs(ratio)).toBeLessThan(3);
});
