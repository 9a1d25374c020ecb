import { expect, it } from 'vitest';
import { reportedDay } from '#core/report/reported-day.ts';
import { resultOfSession } from '#core/session/result.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf } from '#tests/support/reported-day.ts';
import { aSurveyedDay } from '#tests/support/surveyed-day.ts';

it('holds the same result as every screen, and the reduction by the hull where one is entered', () => {
  const plain = reportedDayOf(aDay());
  expect(plain.result).toEqual(resultOfSession(aDay()));
  expect(plain.reduction.byHull).toBe(false);
  const surveyed = reportedDayOf(aSurveyedDay({ readingDeg: 0.002 }));
  expect(surveyed.reduction).toMatchObject({ byHull: true, refused: null });
  expect(surveyed.reduction.reduction?.lightship).not.toBeNull();
  expect(surveyed.missing.length).toBeGreaterThan(0);
});

it('is a function of the session alone', () => {
  const read = reportedDayOf(aDay());
  expect(reportedDay(aDay(), read)).toEqual(read);
});
