import { expect, it } from 'vitest';
import { missingAtEnd } from '#core/session/missing-at-end.ts';
import { surveyMissing } from '#core/session/survey-missing.ts';
import { marramTest } from '#device/emulated/marram.ts';
import { marramSurvey } from '#device/emulated/marram-survey.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { closingSteps, prepareSteps, surveySteps } from '#ui/survey/steps.ts';
import { surveyOf } from '../../support/entries.ts';

it('each thing missing stands at one step of the screen', () => {
  const day = aDay();
  const shown = [...prepareSteps(day), ...surveySteps(day)].flatMap(({ missing }) => missing);
  for (const { what, step } of surveyMissing(day))
    if (step !== 'closing') expect(shown.filter((one) => one === what)).toHaveLength(1);
  const atEnd = closingSteps(day).flatMap(({ missing }) => missing);
  for (const { what } of missingAtEnd(day)) expect(atEnd).toContain(what);
});

it('a whole survey lacks photographs, a second look and the checks, and nothing else', () => {
  const session = { ...aDay(), test: marramTest(), survey: surveyOf(marramSurvey(4)) };
  const lacking = [...prepareSteps(session), ...surveySteps(session)]
    .filter(({ missing }) => missing.length > 0)
    .map(({ id }) => id);
  expect(lacking).toEqual(['weights', 'checks', 'aboard']);
  const [photograph] = surveySteps(session).find(({ id }) => id === 'aboard')!.missing;
  expect(photograph).toMatch(/^a photograph of /);
});
