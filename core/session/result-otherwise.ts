import { headlineGm } from './headline.ts';
import type { SessionState, ShiftState } from './session.ts';
import type { SessionResult } from './session-result.ts';

/** GM with every voided reading put back; null when none is voided. */
export function resultWithVoided(session: SessionState): SessionResult['withVoidedPutBack'] {
  const readings = session.states.reduce((sum, state) => sum + state.voided.length, 0);
  return readings === 0 || session.test === null
    ? null
    : { readings, ...headlineGm(session, true) };
}

/** GM without every reading that stands only because something was overruled; null when none does. */
export function resultWithoutOverruled(session: SessionState): SessionResult['withoutOverruled'] {
  const readings = session.states.filter(standsByOverruling).length;
  if (readings === 0) return null;
  const states = session.states.map((state) =>
    standsByOverruling(state) ? { ...state, reading: null, readingWritten: null } : state,
  );
  return { readings, ...headlineGm({ ...session, states }) };
}

/** Put back after it was voided, or taken over rejected time. */
function standsByOverruling({ reading, readingWritten, putBack }: ShiftState): boolean {
  if (reading === null) return false;
  return (
    reading.overruled !== undefined ||
    putBack.some(({ written }) => written.line === readingWritten?.line)
  );
}
