import { expect, test } from 'vitest';
import { enteredHull, withoutHullText } from '#core/session/told-survey.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { surveyOf } from '../../support/entries.ts';
import { FLOATING, OFFSETS } from './a-floating-day.ts';

test('screens are told that there is a hull, and its text once, apart', () => {
  const day = { ...aDay(), survey: surveyOf(FLOATING) };
  expect(enteredHull(day)?.hull.text).toBe(OFFSETS);
  expect(JSON.stringify(withoutHullText(day))).not.toContain('halfBreadthM\\n');
  expect(withoutHullText(day).survey.entries).toHaveLength(day.survey.entries.length);
  expect(withoutHullText(aDay()).survey.entries).toEqual([]);
});
