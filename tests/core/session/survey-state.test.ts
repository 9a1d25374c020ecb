import { expect, test } from 'vitest';
import { entriesOf, entryLike } from '#core/session/survey-state.ts';
import { entered, surveyOf } from '../../support/entries.ts';

const water = (densityKgM3: number) => entered('water', 'aft', { densityKgM3, temperatureC: null });

test('rows are found by sheet and occasion, and what stands in a place by its key too', () => {
  const zero = entered('zero', 'fore', { zeroDeg: 0.01 }, { occasion: 'closing' });
  const survey = surveyOf([water(1019), zero, water(1020)]);
  expect(entriesOf(survey, 'water').map(({ value }) => value.densityKgM3)).toEqual([1020]);
  expect(entriesOf(survey, 'zero')).toEqual([]);
  expect(entriesOf(survey, 'zero', 'closing')).toHaveLength(1);
  expect(entryLike(survey, water(1))?.earlier).toHaveLength(1);
  expect(entryLike(survey, entered('water', 'fore', null))).toBeUndefined();
});
