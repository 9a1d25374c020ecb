import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import { UNREAD } from './fold-day.ts';
import { awaitsAfter } from './order-of-day.ts';
import type { SessionState, ShiftState } from './session.ts';
import { writtenOf } from './written.ts';

/** Each gives every instrument one more series; a test that needs more is begun anew. */
const MOST_PAUSES = 20;

type PauseLine = Extract<Line, { kind: 'test-postponed' | 'test-resumed' }>;

/**
 * A test is put off and taken up again, perhaps on another day. Overnight everything may have moved
 * a little: each instrument then has a zero of its own from the resuming on, and the arrangement
 * that was left is read again before anything moves.
 */
export function foldPostponed(session: SessionState, line: PauseLine): SessionState {
  const refusal = pauseRefusal(session, line.kind);
  if (refusal !== null)
    throw new Fault('record-line', `line ${line.n} (${line.kind})`, refusal.report.found);
  const folded = line.kind === 'test-postponed' ? postponed(session, line) : resumed(session, line);
  return { ...folded, awaits: awaitsAfter(folded) };
}

/** Why a test cannot be postponed or resumed now; null: it can. */
export function pauseRefusal(session: SessionState, kind: PauseLine['kind']): Fault | null {
  const refused = (found: string) => new Fault('act-not-now', kind, found);
  if (session.test === null) return refused('no test is open yet');
  if (session.closed !== null) return refused('the test is closed');
  if (kind === 'test-resumed')
    return session.postponed === null ? refused('the test is not postponed') : null;
  if (session.postponed !== null) return refused('the test is postponed already');
  if (session.pauses.length >= MOST_PAUSES)
    return refused(`postponed ${MOST_PAUSES} times already`);
  if (session.awaits === 'landing') return refused('weights are under way: land them first');
  return null;
}

function postponed(session: SessionState, line: PauseLine): SessionState {
  return { ...session, postponed: { written: writtenOf(line), reason: line.body.reason } };
}

function resumed(session: SessionState, line: PauseLine): SessionState {
  const written = writtenOf(line);
  const { reason } = line.body;
  const remounted = session.mountings.map(({ instrument }) => ({
    instrument,
    certificate: session.certificates.find((one) => one.instrument === instrument) ?? null,
    written,
    reason: `the test was resumed: ${reason}`,
  }));
  return {
    ...session,
    postponed: null,
    pauses:
      session.postponed === null
        ? session.pauses
        : [...session.pauses, { postponed: session.postponed, resumed: { written, reason } }],
    remounted: [...session.remounted, ...remounted],
    states: [...session.states, ...readAgain(session.states, line)],
  };
}

/** The arrangement that was left, to be read again; none where it was not read yet. */
function readAgain(states: readonly ShiftState[], line: PauseLine): ShiftState[] {
  const last = states.at(-1);
  if (last === undefined || last.reading === null) return [];
  const written = writtenOf(line);
  const { heelingMomentTM } = last;
  return [
    {
      ...UNREAD,
      ...{ state: states.length, heelingMomentTM },
      ...{ begun: written, landed: written, landedS: line.receiverS },
    },
  ];
}
