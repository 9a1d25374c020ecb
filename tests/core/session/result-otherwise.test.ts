import { describe, expect, it } from 'vitest';
import { resultWithoutOverruled, resultWithVoided } from '#core/session/result-otherwise.ts';
import { aDay, withVoided } from './a-day.ts';

describe('GM otherwise', () => {
  const day = aDay({ stateDeg: 0.002, readingDeg: 0.002 });

  it('is not told where nothing was voided or overruled', () => {
    expect(resultWithVoided(day)).toBeNull();
    expect(resultWithoutOverruled(day)).toBeNull();
    expect(resultWithVoided({ ...withVoided(day, 2), test: null })).toBeNull();
  });

  it('counts the readings it is about', () => {
    expect(resultWithVoided(withVoided(day, 2))?.readings).toBe(1);
    const over = day.states.map((state) =>
      state.state < 2 ? { ...state, reading: { ...state.reading!, overruled: [5] } } : state,
    );
    const without = resultWithoutOverruled({ ...day, states: over });
    expect(without?.readings).toBe(2);
    expect(without?.gmFluidM).not.toBeNull();
  });
});
