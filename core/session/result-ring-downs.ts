import { type PlainUncertain, plainUncertain } from '../numerics/coverage.ts';
import { type RingDownChange, ringDownsOf } from '../reduction/ring-downs.ts';
import type { SessionState } from './session.ts';

/** Period and damping of the roll through the day: evidence on what touches her, apart from the plot. */
export interface ResultRingDowns {
  readonly states: readonly {
    readonly state: number;
    readonly periodS: number;
    readonly periodUncertaintyS: number | null;
    readonly dampingRatio: number;
  }[];
  readonly periodS: PlainUncertain | null;
  readonly dampingRatio: number | null;
  /** Is the pooled period better than 1 %? What is less sure is no check. */
  readonly sharp: boolean;
  readonly changes: readonly RingDownChange[];
}

/** The ring-downs of the accepted readings; null while none has a period. */
export function resultRingDowns(session: SessionState): ResultRingDowns | null {
  const states = session.states.flatMap(({ state, reading }) => {
    if (reading === null || reading.rollPeriodS === null || reading.dampingRatio === null)
      return [];
    const { rollPeriodS: periodS, rollPeriodUncertaintyS, dampingRatio } = reading;
    return [{ state, periodS, periodUncertaintyS: rollPeriodUncertaintyS ?? null, dampingRatio }];
  });
  if (states.length === 0) return null;
  const told = ringDownsOf(states);
  return { ...told, periodS: told.periodS === null ? null : plainUncertain(told.periodS) };
}
