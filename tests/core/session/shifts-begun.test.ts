import { expect, test } from 'vitest';
import { shiftsBegun } from '#core/session/shifts-begun.ts';
import { aDay } from '#tests/core/session/a-day.ts';

test('only what a shift led to counts: not the first state, not one read again', () => {
  const [first, second] = aDay().states;
  const again = { ...second!, state: 2, moves: [] };
  expect(shiftsBegun([first!, second!, again])).toEqual([second]);
  expect(shiftsBegun([])).toEqual([]);
});
