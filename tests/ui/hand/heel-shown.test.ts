import { describe, expect, it } from 'vitest';
import { aDay } from '#tests/core/session/a-day.ts';
import { HeelShown, keyOf, opensBlind, stateShown } from '../../../ui/hand/heel-shown.ts';

function storage() {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
}

describe('what a screen has shown of the sensors', () => {
  const day = aDay({ states: 3 });

  it('is the present state on any page with a heel, and nothing on the page for hand readings', () => {
    expect(stateShown(day, 'shifts')).toBe('r/2');
    expect(stateShown(day, 'result')).toBe('r/2');
    expect(stateShown(day, 'hand')).toBeNull();
    expect(stateShown(day, 'record')).toBe('r/2');
    expect(stateShown({ ...day, awaits: 'landing' }, 'shifts')).toBeNull();
    expect(stateShown(null, 'shifts')).toBeNull();
  });

  it('is kept from a window from its first message on where that page is opened', () => {
    expect(['#hand', '#shifts', '', '#record'].map(opensBlind)).toEqual([
      true,
      false,
      false,
      false,
    ]);
  });

  it('is remembered through a loading of the page, state by state', () => {
    const kept = storage();
    const shown = new HeelShown(kept);
    shown.add(keyOf(day, 1));
    shown.add(keyOf(day, 2));
    expect([1, 2, 3].map((state) => shown.has(keyOf(day, state)))).toEqual([true, true, false]);
    const again = new HeelShown(kept);
    expect([1, 2, 3].map((state) => again.has(keyOf(day, state)))).toEqual([true, true, false]);
    expect(again.has(keyOf({ ...day, record: 'other' }, 1))).toBe(false);
  });
});
