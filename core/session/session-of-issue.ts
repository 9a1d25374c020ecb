import { type Change, changesOf } from './changes.ts';
import { latestOf } from './fold-certificate.ts';
import { withCorrections } from './fold-corrections.ts';
import type { SessionState, ShiftState, VoidedReading } from './session.ts';

/**
 * The session as it would stand without what was changed since an earlier issue of its result: 1 is
 * as first written, each change makes the next. RangeError for an issue there is not.
 */
export function sessionOfIssue(session: SessionState, issue: number): SessionState {
  const changes = changesOf(session);
  if (!Number.isInteger(issue) || issue < 1 || issue > changes.length + 1)
    throw new RangeError(`there is no issue ${issue}`);
  return changes.slice(issue - 1).reduceRight(without, session);
}

/** The session without its latest change. */
function without(session: SessionState, change: Change): SessionState {
  const at = change.written.line;
  switch (change.kind) {
    case 'certificate-replaced':
      return withoutReplacement(session, at);
    case 'correction':
      return withoutCorrection(session, at);
    case 'correction-overruled':
      return withCorrections({ ...session, corrected: standingAgain(session, at) });
    case 'reading-put-back':
      return inStates(session, (state) => voidedAgain(state, at));
    case 'reading-voided':
      return inStates(session, (state) => notVoided(state, at));
  }
}

function withoutReplacement(session: SessionState, at: number): SessionState {
  const k = session.replacedCertificates.findLastIndex(({ written }) => written.line === at);
  const entry = session.replacedCertificates[k]!;
  return {
    ...session,
    certificates: latestOf(session.certificates, entry.certificate),
    replacedCertificates: session.replacedCertificates.toSpliced(k, 1),
  };
}

/** A line without corrections is put back as it was written first, and only then forgotten. */
function withoutCorrection(session: SessionState, at: number): SessionState {
  const corrected = session.corrected.map((one) => ({
    ...one,
    corrections: one.corrections.filter(({ written }) => written.line !== at),
  }));
  return {
    ...withCorrections({ ...session, corrected }),
    corrected: corrected.filter(({ corrections }) => corrections.length > 0),
  };
}

function standingAgain(session: SessionState, at: number): SessionState['corrected'] {
  return session.corrected.map((one) => ({
    ...one,
    corrections: one.corrections.map((each) =>
      each.overruled?.written.line === at ? { ...each, overruled: null } : each,
    ),
  }));
}

function inStates(session: SessionState, change: (state: ShiftState) => ShiftState): SessionState {
  return { ...session, states: session.states.map(change) };
}

/** Not put back: voided as it was, unless it has been voided anew since. */
function voidedAgain(state: ShiftState, at: number): ShiftState {
  const entry = state.putBack.find(({ putBack }) => putBack.written.line === at);
  if (entry === undefined) return state;
  const { reading, written, reason, voided } = entry;
  const putBack = state.putBack.filter((one) => one !== entry);
  if (state.readingWritten?.line !== entry.written.line) return { ...state, putBack };
  return {
    ...state,
    reading: null,
    readingWritten: null,
    voided: [...state.voided, { reading, written, reason, voided }],
    putBack,
  };
}

function notVoided(state: ShiftState, at: number): ShiftState {
  const isIt = (one: VoidedReading) => one.voided.line === at;
  const entry = state.voided.find(isIt);
  if (entry === undefined || state.reading !== null) return state;
  return {
    ...state,
    reading: entry.reading,
    readingWritten: entry.written,
    voided: state.voided.filter((one) => one !== entry),
  };
}
