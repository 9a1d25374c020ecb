import { expect, test } from 'vitest';
import { fewestMovements, mayOmitRest, NO_SKIPPING } from '#core/shift/skip-rules.ts';

const seven = { ...NO_SKIPPING, recheckAfterSeven: true };
const six = { ...NO_SKIPPING, completeAfterSix: true };

test('off by default: eight movements', () => {
  expect(fewestMovements(NO_SKIPPING)).toBe(8);
  expect(mayOmitRest(NO_SKIPPING, 7, true, true)).toBe('not-allowed');
  expect(mayOmitRest(NO_SKIPPING, 6, true, true)).toBe('not-allowed');
});

test('each rule alone, and only on a straight plot', () => {
  expect([fewestMovements(seven), fewestMovements(six)]).toEqual([7, 6]);
  expect(mayOmitRest(seven, 7, true, true)).toBe('movement-eight');
  expect(mayOmitRest(seven, 6, true, true)).toBe('not-allowed');
  expect(mayOmitRest(six, 6, true, true)).toBe('all-that-is-left');
  expect(mayOmitRest(six, 7, true, true)).toBe('not-allowed');
  expect(mayOmitRest(six, 6, false, true)).toBe('not-allowed');
  for (const rules of [seven, six]) {
    expect(mayOmitRest(rules, 7, true, false)).toBe('not-straight');
    expect(mayOmitRest(rules, 5, true, true)).toBe('not-yet');
  }
});
