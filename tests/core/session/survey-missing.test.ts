import { expect, test } from 'vitest';
import { surveyMissing } from '#core/session/survey-missing.ts';
import { marramSurvey } from '#device/emulated/marram-survey.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { surveyOf } from '../../support/entries.ts';

test('a survey that is whole lacks only what a second person and the end of the day give', () => {
  const day = aDay();
  const survey = surveyOf(marramSurvey(4));
  const begun = { ...day, survey, states: day.states.slice(0, 1) };
  const missing = surveyMissing({
    ...begun,
    test: { ...day.test!, plan: [{ moves: [] }] } as never,
  });
  expect(missing.map(({ step }) => step)).toEqual(['prepare']);
  expect(missing[0]!.what).toMatch(/second person/);
  const done = surveyMissing({ ...day, survey });
  expect(done.filter(({ step }) => step === 'closing').map(({ what }) => what)).toEqual([
    '2 freeboards to port again',
    '2 freeboards to starboard again',
    'the density again',
  ]);
});
