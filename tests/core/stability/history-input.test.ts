import { expect, test } from 'vitest';
import { historyInput } from '#core/stability/history-input.ts';
import { HISTORY, tested } from './a-history.ts';

const holds = (history: unknown) => historyInput.safeParse(history).success;

test('tests stand in the order of their days, and a change comes from or goes somewhere', () => {
  expect(holds(HISTORY)).toBe(true);
  expect(holds({ ...HISTORY, tests: [] })).toBe(false);
  expect(holds({ ...HISTORY, tests: [...HISTORY.tests].reverse() })).toBe(false);
  expect(holds({ ...HISTORY, tests: [tested('2030-01-01')] })).toBe(false);
  expect(holds({ ...HISTORY, asOf: 'yesterday' })).toBe(false);
  const nowhere = { what: 'winch', massT: 0.5, from: null, to: null };
  expect(holds({ ...HISTORY, changes: [nowhere] })).toBe(false);
  expect(holds({ ...HISTORY, changes: [{ ...nowhere, massT: -1 }] })).toBe(false);
});
