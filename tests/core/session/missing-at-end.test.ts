import { expect, test } from 'vitest';
import { missingAtEnd } from '#core/session/missing-at-end.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { entered, surveyOf } from '../../support/entries.ts';

const zero = (occasion: 'before' | 'closing') =>
  entered('zero', 'fore', { zeroDeg: 0.01 }, { occasion });
const weighed = (weight: string) =>
  entered('weight', weight, { massT: 0.5, by: 'B. Heron' }, { occasion: 'closing' });

test('what was taken at the beginning is asked for again, by name, until it is there', () => {
  const day = aDay();
  const whats = (...rows: ReturnType<typeof entered>[]) =>
    missingAtEnd({ ...day, survey: surveyOf(rows) })
      .filter(({ part }) => part === 'zeros' || part === 'weights')
      .map(({ what }) => what);
  expect(whats()).toEqual(['the mass of A, B, C, D again']);
  expect(whats(zero('before'), weighed('B'))).toEqual([
    'the own zero of fore again',
    'the mass of A, C, D again',
  ]);
  expect(whats(zero('before'), zero('closing'), ...['A', 'B', 'C', 'D'].map(weighed))).toEqual([]);
});
