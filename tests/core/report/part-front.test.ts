import { expect, it } from 'vitest';
import { partFront, sentence } from '#core/report/part-front.ts';
import { aDay, withVoided } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';

it('has both answers, says which is official, and GM with voided readings put back', () => {
  const day = reportedDayOf(withVoided(aDay({ metacentreMovementM: 0.9, stateDeg: 0.003 }), 4));
  const texts = textsOf(partFront(day));
  const official = texts.indexOf('official');
  expect(texts[official - 5]).toBe('Metacentre’s movement taken out');
  expect(texts).toContain('GM (fluid) with all 1 voided readings put back');
  expect(texts.join('\n')).toContain('This is no approval');
});

it('says why there is no answer', () => {
  const texts = textsOf(partFront(reportedDayOf(aDay({ states: 2 }))));
  expect(texts.some((text) => text.startsWith('There is no GM:'))).toBe(true);
});

it('makes a sentence', () => {
  expect(sentence('no trouble seen in the plot')).toBe('No trouble seen in the plot.');
  expect(sentence('Stop!')).toBe('Stop!');
});
