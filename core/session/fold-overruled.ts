import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import { withCorrections } from './fold-corrections.ts';
import { awaitsAfter } from './order-of-day.ts';
import type { Overruled, SessionState, ShiftState } from './session.ts';
import { writtenOf } from './written.ts';

/** An instrument that said nothing, or the same whatever the heel, has nothing to be counted. */
const NOTHING_MEASURED: ReadonlySet<string> = new Set(['silent', 'stuck', 'saturated']);

/** The session with what an earlier line decided set aside; what does not fit throws `record-line`. */
export function foldOverruled(
  session: SessionState,
  line: Extract<Line, { kind: 'overruled' }>,
): SessionState {
  const refusal = overrulingRefusal(session, line.body.line);
  if (refusal !== null)
    throw new Fault('record-line', `line ${line.n} (${line.kind})`, refusal.report.found);
  const overruled = { written: writtenOf(line), reason: line.body.reason };
  const folded = overruledAt(session, line.body.line, overruled);
  return { ...folded, awaits: awaitsAfter(folded) };
}

/** Why nothing can be overruled at this line, `overruling-unfit`; null: it can be. */
export function overrulingRefusal(session: SessionState, line: number): Fault | null {
  const unfit = (found: string) => new Fault('overruling-unfit', `line ${line}`, found);
  const state = stateOfVoiding(session, line);
  if (state !== undefined)
    return state.reading === null
      ? null
      : unfit(
          `state ${state.state} is read by line ${state.readingWritten?.line}: void that first`,
        );
  const correction = session.corrected
    .flatMap((one) => one.corrections)
    .find(({ written }) => written.line === line);
  if (correction !== undefined)
    return correction.overruled === null ? null : unfit('this correction fell away already');
  const rejected = session.disturbances.find(({ written }) => written.line === line);
  if (rejected === undefined) return unfit('nothing stands there that can be overruled');
  const { disturbance, overruled } = rejected;
  if (overruled !== null) return unfit('this time counts already');
  if (NOTHING_MEASURED.has(disturbance.kind))
    return unfit(`${disturbance.kind}: nothing was measured in that time`);
  if (session.awaits !== 'reading' || disturbance.toS <= stateSinceS(session))
    return unfit('no reading to be taken now reaches back to that time');
  return null;
}

/** Receiver time from which on samples belong to the reading that is awaited. */
export function stateSinceS(session: SessionState): number {
  const last = session.states.at(-1);
  if (last === undefined) return Number.POSITIVE_INFINITY;
  const replaced = session.replacedCertificates.at(-1)?.written.receiverS;
  return Math.max(
    last.landedS ?? session.testOpened?.receiverS ?? 0,
    ...last.voided.map(({ voided }) => voided.receiverS),
    ...last.putBack.map(({ voided }) => voided.receiverS),
    replaced ?? 0,
  );
}

function stateOfVoiding(session: SessionState, line: number): ShiftState | undefined {
  return session.states.find((state) => state.voided.some(({ voided }) => voided.line === line));
}

function overruledAt(session: SessionState, line: number, overruled: Overruled): SessionState {
  const state = stateOfVoiding(session, line);
  if (state !== undefined) return readingPutBack(session, state, line, overruled);
  if (session.disturbances.some(({ written }) => written.line === line))
    return {
      ...session,
      disturbances: session.disturbances.map((one) =>
        one.written.line === line ? { ...one, overruled } : one,
      ),
    };
  return withCorrections({
    ...session,
    corrected: session.corrected.map((one) => ({
      ...one,
      corrections: one.corrections.map((each) =>
        each.written.line === line ? { ...each, overruled } : each,
      ),
    })),
  });
}

function readingPutBack(
  session: SessionState,
  state: ShiftState,
  line: number,
  putBack: Overruled,
): SessionState {
  const entry = state.voided.find(({ voided }) => voided.line === line)!;
  const changed: ShiftState = {
    ...state,
    reading: entry.reading,
    readingWritten: entry.written,
    voided: state.voided.filter((one) => one !== entry),
    putBack: [...state.putBack, { ...entry, putBack }],
  };
  return { ...session, states: session.states.with(state.state, changed) };
}
