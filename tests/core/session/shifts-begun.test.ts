import { expect, test } from 'vitest';
import { shiftsBegun } from '#core/session/shifts-begun.ts';
import { aDay } from '#tests/core/session/a-day.ts';

test('only what a shift led to counts: not the first state, not one read again', () => {
  const [first, second] = aDay().states;
  const begun = { ...second!, asWritten: {} as never };
  expect(shiftsBegun([{ ...first!, asWritten: null }, begun, { ...begun, asWritten: null }])).toBe(
    1,
  );
  expect(shiftsBegun([])).toBe(0);
});
