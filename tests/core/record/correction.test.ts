import { describe, expect, it } from 'vitest';
import { correction } from '#core/record/correction.ts';

const sound = {
  line: 3,
  changes: [{ field: ['weights', 0, 'massT'], was: 0.25, is: 0.26 }],
  reason: 'weighed again',
};

describe('the form of a correction', () => {
  it('names line, fields, values and a reason', () => {
    expect(correction.parse(sound)).toEqual(sound);
  });

  it.each([
    ['no change', { ...sound, changes: [] }],
    ['no reason', { ...sound, reason: '  ' }],
    ['a field of no steps', { ...sound, changes: [{ field: [], was: 1, is: 2 }] }],
    ['a value that is an object', { ...sound, changes: [{ field: ['at'], was: 'a', is: {} }] }],
    ['a place that is no whole number', { ...sound, changes: [{ field: [0.5], was: 1, is: 2 }] }],
    ['something beside', { ...sound, by: 'x' }],
  ])('refuses %s', (_, wrong) => {
    expect(correction.safeParse(wrong).success).toBe(false);
  });
});
