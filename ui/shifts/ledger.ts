import { degreesFromRadians } from '#core/quantity/angle.ts';
import type { Reading } from '#core/record/reading-line.ts';
import { readingFlags } from '#core/session/reading-flags.ts';
import type { SessionState, ShiftState, VoidedReading } from '#core/session/session.ts';
import type { SessionResult } from '#core/session/session-result.ts';
import { shiftsBegun } from '#core/session/shifts-begun.ts';
import { momentOfPlaces } from '#core/shift/moment.ts';
import type { LivePicture } from '#core/wire/screen-message.ts';
import { movesInWords, presentState } from './day.ts';

/** Half the width of the 95 % interval of what stands in a row, with the heel itself. */
export interface RowHeel {
  readonly heelDeg: number;
  readonly halfWidthDeg: number;
}

export interface LedgerRow {
  readonly kind: 'read' | 'voided' | 'live' | 'plan';
  readonly key: string;
  readonly state: number;
  readonly moved: string;
  readonly momentTM: number | null;
  readonly predicted: RowHeel | null;
  readonly seen: RowHeel | null;
  /** Heel the line so far gives a planned moment, degrees; the plan has no ± yet. */
  readonly planned: number | null;
  readonly wall: string | null;
  /** Why it was struck and by whom, or what a row without a reading is waiting for. */
  readonly note: string | null;
  readonly line: number | null;
  readonly reading: Reading | null;
  /** What the witness wants settled about this reading. */
  readonly asks: SessionState['people']['asks'];
  /** What is to be said beside its instruments. */
  readonly flags: readonly string[];
}

export type HalfWidth = (standardErrorDeg: number, degreesOfFreedom: number) => number;

/** The ledger of the day, running down: what was read, what was struck, what is live, what is planned. */
export function ledgerOf(
  session: SessionState,
  live: LivePicture | null,
  halfWidth: HalfWidth,
  line: SessionResult['line'] = null,
): LedgerRow[] {
  const rows: LedgerRow[] = [];
  const present = presentState(session);
  for (const state of session.states) {
    for (const voided of state.voided)
      rows.push(withWords(session, voidedRow(state, voided, halfWidth)));
    if (state.reading !== null)
      rows.push(withWords(session, readRow(state, state.reading, halfWidth)));
    // A state left behind without a reading can never be read again: its struck rows say all.
    else if (state === present) rows.push(liveRow(session, state, live, halfWidth));
  }
  return [...rows, ...plannedRows(session, line)];
}

function withWords(session: SessionState, row: LedgerRow): LedgerRow {
  if (row.reading === null || row.line === null) return row;
  const asks = session.people.asks.filter(({ line }) => line === row.line);
  return {
    ...row,
    asks,
    flags: readingFlags(session, row.reading, row.line).map(({ words }) => words),
  };
}

function emptyRow(state: number): LedgerRow {
  return {
    kind: 'plan',
    key: `${state}`,
    state,
    moved: '',
    momentTM: null,
    predicted: null,
    seen: null,
    planned: null,
    wall: null,
    note: null,
    line: null,
    reading: null,
    flags: [],
    asks: [],
  };
}

function shiftRow(state: ShiftState, halfWidth: HalfWidth): LedgerRow {
  const { predictedHeelDeg, predictedStandardErrorDeg, predictedDegreesOfFreedom } = state;
  const predicted =
    predictedHeelDeg === null || predictedStandardErrorDeg === null
      ? null
      : {
          heelDeg: predictedHeelDeg,
          halfWidthDeg: halfWidth(
            predictedStandardErrorDeg,
            predictedDegreesOfFreedom ?? Number.POSITIVE_INFINITY,
          ),
        };
  return {
    ...emptyRow(state.state),
    moved: state.state === 0 ? 'all at marks' : movesInWords(state.moves),
    momentTM: state.heelingMomentTM,
    predicted,
  };
}

function seenIn(reading: Reading, halfWidth: HalfWidth): RowHeel {
  const { heelDeg, standardErrorDeg, degreesOfFreedom } = reading.joined;
  return { heelDeg, halfWidthDeg: halfWidth(standardErrorDeg, degreesOfFreedom) };
}

function readRow(state: ShiftState, reading: Reading, halfWidth: HalfWidth): LedgerRow {
  return {
    ...shiftRow(state, halfWidth),
    kind: 'read',
    key: `read-${state.state}`,
    seen: seenIn(reading, halfWidth),
    wall: state.readingWritten?.wall ?? null,
    line: state.readingWritten?.line ?? null,
    reading,
  };
}

function voidedRow(state: ShiftState, voided: VoidedReading, halfWidth: HalfWidth): LedgerRow {
  return {
    ...shiftRow(state, halfWidth),
    kind: 'voided',
    key: `voided-${voided.written.line}`,
    seen: seenIn(voided.reading, halfWidth),
    wall: voided.written.wall,
    note: `${voided.reason} (${voided.voided.author})`,
    line: voided.written.line,
    reading: voided.reading,
  };
}

function liveRow(
  session: SessionState,
  state: ShiftState,
  live: LivePicture | null,
  halfWidth: HalfWidth,
): LedgerRow {
  const estimate = session.awaits === 'reading' ? (live?.joined.estimate ?? null) : null;
  return {
    ...shiftRow(state, halfWidth),
    kind: 'live',
    key: `live-${state.state}`,
    seen:
      estimate === null
        ? null
        : { heelDeg: estimate.heelDeg, halfWidthDeg: estimate.halfWidth95Deg },
    note: session.awaits === 'landing' ? 'moving' : 'now',
  };
}

/** The shifts of the plan that are still to come, each from where the one before it leaves the weights. */
function plannedRows(session: SessionState, line: SessionResult['line']): LedgerRow[] {
  const present = presentState(session);
  const { test } = session;
  if (present === null || test === null || session.closed !== null) return [];
  const at = new Map(Object.entries(session.weightsAt));
  // While weights are under way they still stand where they came from.
  for (const move of present.moves) at.set(move.weight, move.to);
  return test.plan.slice(shiftsBegun(session.states).length).map((shift, index) => {
    const moves = shift.moves.map((move) => ({ ...move, from: at.get(move.weight) ?? move.to }));
    for (const move of shift.moves) at.set(move.weight, move.to);
    const { heelingMomentTM } = momentOfPlaces(test.weights, at);
    const state = present.state + index + 1;
    return {
      ...emptyRow(state),
      key: `plan-${state}`,
      moved: movesInWords(moves),
      momentTM: heelingMomentTM,
      planned:
        line === null
          ? null
          : degreesFromRadians(
              Math.atan(line.interceptTangent + line.slopePerTM.value * heelingMomentTM),
            ),
      note: index === 0 ? 'next' : null,
    };
  });
}
