import { Fault } from '../fault/fault.ts';
import { bodyWith, type CorrectableBody, correctedBody } from '../record/correctable.ts';
import type { Correction } from '../record/correction.ts';
import type { Line } from '../record/line.ts';
import { withMovesFollowed } from './moves-followed.ts';
import type { CorrectedLine, SessionState } from './session.ts';
import { writtenOf } from './written.ts';

/** Screens are sent all of them; a record that needs more has other troubles. */
export const MOST_CORRECTIONS = 200;

/** The session with one more correction; one that does not fit its target throws `record-line`. */
export function foldCorrection(
  session: SessionState,
  line: Extract<Line, { kind: 'correction' }>,
): SessionState {
  const { changes, reason } = line.body;
  let asWritten: CorrectableBody;
  try {
    asWritten = checkCorrection(session, line.body);
    const entry = { written: writtenOf(line), changes, reason, overruled: null };
    const before = session.corrected.find((one) => one.line === line.body.line);
    const corrected =
      before === undefined
        ? [...session.corrected, { line: line.body.line, asWritten, corrections: [entry] }]
        : session.corrected.map((one) =>
            one === before ? { ...one, corrections: [...one.corrections, entry] } : one,
          );
    return withCorrections({ ...session, corrected });
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    const { where, found } = error.report;
    throw new Fault('record-line', `line ${line.n} (correction)`, `${where}: ${found}`);
  }
}

/**
 * The line to be corrected as it stands now. Throws `correction-unfit` where the correction does
 * not fit it: no such line or one that cannot be corrected, a field that cannot, another value
 * than the one named, a value that the form does not take, a plan that is carried out already.
 */
export function checkCorrection(session: SessionState, correction: Correction): CorrectableBody {
  const { line, changes } = correction;
  const target = lineInForce(session, line);
  if (target === null)
    throw new Fault('correction-unfit', `line ${line}`, 'is none that can be corrected');
  const count = session.corrected.reduce((sum, one) => sum + one.corrections.length, 0);
  if (count >= MOST_CORRECTIONS)
    throw new Fault('correction-unfit', `line ${line}`, `${count} corrections are enough`);
  const begun = session.states.length - 1;
  for (const { field } of changes)
    if (field[0] === 'plan' && Number(field[1]) < begun)
      throw new Fault(
        'correction-unfit',
        field.join('.'),
        `shift ${Number(field[1]) + 1} is begun: correct line ${session.states[Number(field[1]) + 1]?.begun?.line}`,
      );
  // Tried whole, so that what would be refused later (a sum that is no number) is refused now.
  const corrected = correctedBody(target, changes);
  withMovesFollowed(withBody(session, line, corrected));
  const before = session.corrected.find((one) => one.line === line);
  return before?.asWritten ?? writtenBody(session, target);
}

/** Of a shift also its moves' beginnings and its moment may have followed from other corrections. */
function writtenBody(session: SessionState, target: CorrectableBody): CorrectableBody {
  if (target.kind !== 'shift-begun') return target;
  const written = session.states[target.body.state]?.asWritten;
  if (written == null) return target;
  const { moves, heelingMomentTM } = written;
  return { kind: 'shift-begun', body: { ...target.body, moves: [...moves], heelingMomentTM } };
}

/** What a line that can be corrected says by all its corrections; null: no such line. */
export function lineInForce(session: SessionState, line: number): CorrectableBody | null {
  if (session.test !== null && session.testOpened?.line === line)
    return { kind: 'test-opened', body: session.test };
  for (const state of session.states) {
    if (state.begun?.line === line) {
      const { moves, heelingMomentTM, predictedHeelDeg, predictedStandardErrorDeg } = state;
      const { predictedDegreesOfFreedom } = state;
      const predicted = { predictedHeelDeg, predictedStandardErrorDeg, predictedDegreesOfFreedom };
      const body = { state: state.state, moves: [...moves], heelingMomentTM, ...predicted };
      return { kind: 'shift-begun', body };
    }
    if (state.landed?.line === line && state.landedS !== null)
      return { kind: 'weight-landed', body: { state: state.state, landedS: state.landedS } };
    const byHand = state.handReadings.find(({ written }) => written.line === line);
    if (byHand !== undefined) return { kind: 'hand-reading', body: byHand.reading };
  }
  return null;
}

/** The session with every corrected line as its corrections in force leave it. */
export function withCorrections(session: SessionState): SessionState {
  let folded = session;
  for (const one of session.corrected) folded = withBody(folded, one.line, bodyInForce(one));
  return withMovesFollowed(folded);
}

function bodyInForce({ asWritten, corrections }: CorrectedLine): CorrectableBody {
  return corrections
    .filter(({ overruled }) => overruled === null)
    .reduce((body, { changes }) => bodyWith(body, changes), asWritten);
}

function withBody(session: SessionState, line: number, target: CorrectableBody): SessionState {
  const { kind, body } = target;
  if (kind === 'test-opened') return { ...session, test: body };
  const states = session.states.map((state) => {
    if (kind === 'shift-begun' && state.begun?.line === line)
      return { ...state, moves: body.moves };
    if (kind === 'weight-landed' && state.landed?.line === line)
      return { ...state, landedS: body.landedS };
    if (kind !== 'hand-reading') return state;
    const handReadings = state.handReadings.map((one) =>
      one.written.line === line ? { ...one, reading: body } : one,
    );
    return { ...state, handReadings };
  });
  return { ...session, states };
}
