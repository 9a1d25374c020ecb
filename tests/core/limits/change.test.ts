import { describe, expect, it } from 'vitest';
import { loadChange, withChange } from '#core/limits/change.ts';
import { boxQuestion } from '../stability/box-condition.ts';

const at = { xM: 10, yM: 0, zM: 4 };

describe('a change of what is aboard', () => {
  const question = boxQuestion();
  it('adds, takes off, and moves by exact moments', () => {
    const more = withChange(question, { act: 'add', what: 'bags', massT: 15.5, at }).loaded;
    expect(more.moments.massT).toBeCloseTo(200, 10);
    expect(more.centre.zM).toBeCloseTo((184.5 * 2.2 + 15.5 * 4) / 200, 12);
    const less = withChange(question, { act: 'remove', what: 'winch', massT: 4.5, at }).loaded;
    expect(less.centre.zM).toBeCloseTo((184.5 * 2.2 - 4.5 * 4) / 180, 12);
    const moved = withChange(question, {
      act: 'move',
      what: 'winch',
      massT: 3,
      at,
      to: { ...at, yM: 2, zM: 1 },
    }).loaded;
    expect(moved.moments.massT).toBeCloseTo(184.5, 12);
    expect(moved.centre.yM).toBeCloseTo(6 / 184.5, 12);
    expect(moved.centre.zM).toBeCloseTo(2.2 - 9 / 184.5, 12);
    expect(moved.rows.slice(-2).map((row) => row.massT)).toEqual([-3, 3]);
  });

  it('leaves the condition asked about as it was, and its errors', () => {
    const before = structuredClone(question.loaded.moments);
    const { loaded } = withChange(question, { act: 'add', what: 'bags', massT: 1, at });
    expect(question.loaded.moments).toEqual(before);
    expect(loaded.causes).toBe(question.loaded.causes);
  });

  it('cannot take off more than there is, nor be of another form', () => {
    expect(() => withChange(question, { act: 'remove', what: 'x', massT: 185, at })).toThrow(
      'input-range',
    );
    expect(loadChange.safeParse({ act: 'move', what: 'x', massT: 1, at }).success).toBe(false);
    expect(loadChange.safeParse({ act: 'add', what: 'x', massT: -1, at }).success).toBe(false);
  });
});
