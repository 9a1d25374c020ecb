import type { SessionState } from './session.ts';

/**
 * The session as somebody may know it who reads a pendulum of its last state by eye: without what
 * the sensors and the prediction say of that state. Roll runs since it landed tell its heel too.
 */
export function blindSession(session: SessionState): SessionState {
  const last = session.states.at(-1);
  if (last === undefined) return session;
  const since = last.landed?.line ?? last.begun?.line ?? -1;
  return {
    ...session,
    states: session.states.with(-1, {
      ...last,
      predictedHeelDeg: null,
      predictedStandardErrorDeg: null,
      predictedDegreesOfFreedom: null,
      reading: null,
      readingWritten: null,
      voided: [],
      putBack: [],
    }),
    rollRuns: session.rollRuns.filter(({ written }) => written.line < since),
  };
}

/** States whose heel by the sensors stands in the session. */
export function statesTold(session: SessionState): number[] {
  return session.states
    .filter(({ reading, voided }) => reading !== null || voided.length > 0)
    .map(({ state }) => state);
}

/** The state whose heel a live picture tells; null: none, or weights are under way. */
export function stateLive({ states, awaits }: SessionState): number | null {
  return awaits === 'landing' ? null : (states.at(-1)?.state ?? null);
}
