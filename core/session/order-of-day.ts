import { Fault } from '../fault/fault.ts';
import type { Move } from '../record/line.ts';
import type { SessionState } from './session.ts';
import { shiftsBegun } from './shifts-begun.ts';

/**
 * What the day waits for: the zero is read before any weight moves, weights land before they are
 * read, and every state is read before the next shift, for a plot with a hole tells less.
 */
export function awaitsAfter(session: Omit<SessionState, 'awaits'>): SessionState['awaits'] {
  if (session.test === null) return 'test';
  if (session.closed !== null || session.postponed !== null) return 'nothing';
  const last = session.states.at(-1);
  if (last === undefined) return 'test';
  if (last.begun !== null && last.landed === null) return 'landing';
  if (last.reading === null) return 'reading';
  return shiftsBegun(session.states).length < session.test.plan.length ? 'shift' : 'nothing';
}

const WAITING_WORDS: Record<SessionState['awaits'], string> = {
  test: 'no test is open yet',
  reading: 'a reading is to be taken first',
  landing: 'weights are still under way',
  shift: 'the next shift is to begin first',
  nothing: 'the day is done',
};

/** Throws `act-not-now` unless the day waits for exactly this. */
export function requireAwaits(
  session: SessionState,
  wanted: SessionState['awaits'],
  act: string,
): void {
  if (session.awaits === wanted) return;
  const why = session.postponed === null ? WAITING_WORDS[session.awaits] : 'the test is postponed';
  throw new Fault('act-not-now', act, why);
}

/** The moves of the next planned shift, from where the weights are now. */
export function nextPlannedMoves(session: SessionState): readonly Move[] {
  const planned = session.test?.plan[shiftsBegun(session.states).length];
  if (planned === undefined)
    throw new Fault('act-not-now', 'begin-shift', 'the plan holds no further shift');
  return planned.moves.map((move) => {
    const from = session.weightsAt[move.weight];
    if (from === undefined)
      throw new Fault('input-shape', 'plan', `no weight is called ${move.weight}`);
    return { weight: move.weight, from, to: move.to };
  });
}
