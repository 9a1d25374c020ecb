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
  expect(missing.map(({ step, part }) => `${step} ${part}`)).toEqual([
    'prepare weights',
    'prepare checks',
  ]);
  expect(missing[0]!.what).toMatch(/second person/);
  const done = surveyMissing({ ...day, survey });
  expect(done.filter(({ step }) => step === 'closing').map(({ what }) => what)).toEqual([
    '2 freeboards to port again',
    '2 freeboards to starboard again',
    'the density again',
    'where A. Rowan at the middle of the deck stands, again',
    'where B. Heron in the wheelhouse stands, again',
    'where hand at the weights stands, again',
    'the mass of A, B, C, D again',
    '9 of 9 checks of the berth again',
  ]);
});
