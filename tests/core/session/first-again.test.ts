import { expect, test } from 'vitest';
import { firstAgain } from '#core/session/first-again.ts';
import { aDay } from '#tests/core/session/a-day.ts';

test('the newest reading of the first arrangement, not the first itself and none that was not read', () => {
  const day = aDay();
  expect(firstAgain(day)?.state).toBe(day.states.length - 1);
  expect(firstAgain({ states: day.states.slice(0, 2) })).toBeNull();
  expect(firstAgain({ states: [] })).toBeNull();
  const unread = { ...day.states.at(-1)!, reading: null };
  expect(firstAgain({ states: day.states.with(-1, unread) })?.state).not.toBe(unread.state);
});
