import { describe, expect, it } from 'vitest';
import { resultRingDowns } from '#core/session/result-ring-downs.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay } from './a-day.ts';

function rolling(periodOf: (state: number) => number | null): SessionState {
  const day = aDay();
  return {
    ...day,
    states: day.states.map((state) => ({
      ...state,
      reading: {
        ...state.reading!,
        rollPeriodS: periodOf(state.state),
        rollPeriodUncertaintyS: 0.02,
        dampingRatio: 0.05,
      },
    })),
  };
}

describe('ring-downs in the result', () => {
  it('pool the periods of the accepted readings and name what is unlike', () => {
    const told = resultRingDowns(rolling((state) => (state === 4 ? 4.7 : 5)))!;
    expect(told.states).toHaveLength(9);
    expect(told.changes[0]).toMatchObject({ matter: 'period', states: [4] });
    const quiet = resultRingDowns(rolling(() => 5))!;
    expect(quiet).toMatchObject({ sharp: true, changes: [] });
    expect(quiet.periodS).toMatchObject({ value: 5, degreesOfFreedom: null });
    expect(JSON.parse(JSON.stringify(quiet))).toEqual(quiet);
  });

  it('are none while no reading has a period', () => {
    expect(resultRingDowns(rolling(() => null))).toBeNull();
    expect(resultRingDowns(rolling((state) => (state === 0 ? 5 : null)))!.periodS).toBeNull();
  });
});
