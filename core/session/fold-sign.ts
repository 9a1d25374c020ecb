import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import { type SignConfirmed, signRefusal } from '../sample/sign-confirmed.ts';
import type { SessionState } from './session.ts';
import { writtenOf } from './written.ts';

/** Who saw which instrument show starboard down, and under which seal. */
export function foldSign(
  session: SessionState,
  line: Extract<Line, { kind: 'sign-confirmed' }>,
): SessionState {
  const refusal = confirmingRefusal(session, line.body);
  if (refusal !== null)
    throw new Fault('record-line', `line ${line.n} (${line.kind})`, refusal.report.found);
  return { ...session, signs: [...session.signs, { ...line.body, written: writtenOf(line) }] };
}

/** Why a sign cannot be confirmed so; null: it can. */
export function confirmingRefusal(
  session: Pick<SessionState, 'mountings'>,
  told: SignConfirmed,
): Fault | null {
  if (!session.mountings.some(({ instrument }) => instrument === told.instrument))
    return new Fault('instrument-unknown', told.instrument, 'not mounted in this record');
  return signRefusal(told);
}
