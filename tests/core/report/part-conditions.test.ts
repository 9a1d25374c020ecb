import { expect, it } from 'vitest';
import { DAY_CHECKS, STATEMENTS } from '#core/record/entry-line.ts';
import { partConditions } from '#core/report/part-conditions.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';
import { aSurveyedDay } from '#tests/support/surveyed-day.ts';

it('has a place for every statement and check, and says what was not stated', () => {
  const texts = textsOf(partConditions(reportedDayOf(aDay())));
  expect(texts.filter((text) => text === 'not stated')).toHaveLength(STATEMENTS.length);
  expect(texts.filter((text) => text === 'not entered')).toHaveLength(2 * DAY_CHECKS.length);
});

it('prints what was entered, a check that does not hold, and masses taken again', () => {
  const texts = textsOf(partConditions(reportedDayOf(aSurveyedDay())));
  expect(texts).toEqual(
    expect.arrayContaining([
      'Harbour office of Kettle Sound',
      'One pendulum is enough.',
      'NO: a fender touched',
      'yes: all four',
      '0.5005',
      '3.602',
    ]),
  );
  expect(texts.some((text) => text.includes('a second person'))).toBe(true);
});
