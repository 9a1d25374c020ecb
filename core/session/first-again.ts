import type { SessionState, ShiftState } from './session.ts';

/** A moment is that of the first state again within so much, t·m: rounding. */
const SAME_MOMENT_TM = 1e-6;

/** The last reading of the first arrangement after it was left; null: it was never read again. */
export function firstAgain({ states }: Pick<SessionState, 'states'>): ShiftState | null {
  const [first] = states;
  if (first === undefined) return null;
  const again = states.findLast(
    ({ reading, heelingMomentTM }) =>
      reading !== null && Math.abs(heelingMomentTM - first.heelingMomentTM) < SAME_MOMENT_TM,
  );
  return again === undefined || again.state === 0 ? null : again;
}
