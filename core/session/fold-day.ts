import { Fault } from '../fault/fault.ts';
import type { Line, Place } from '../record/line.ts';
import { shiftAsWritten } from './moves-followed.ts';
import { awaitsAfter } from './order-of-day.ts';
import type { SessionState, ShiftState } from './session.ts';
import { writtenOf } from './written.ts';

type LineOf<K extends Line['kind']> = Extract<Line, { kind: K }>;
type DayLine = LineOf<
  | 'test-opened'
  | 'shift-begun'
  | 'weight-landed'
  | 'reading'
  | 'reading-voided'
  | 'hand-reading'
  | 'test-closed'
>;

/** What nobody does while a test is postponed. */
const OF_AN_OPEN_DAY: ReadonlySet<DayLine['kind']> = new Set([
  'shift-begun',
  'weight-landed',
  'reading',
]);

/** The course of the day after one of its lines; a line out of turn throws `record-line`. */
export function foldDay(session: SessionState, line: DayLine): SessionState {
  const folded = foldDayKind(session, line);
  return { ...folded, awaits: awaitsAfter(folded) };
}

function foldDayKind(session: SessionState, line: DayLine): SessionState {
  if (line.kind === 'test-opened') return opened(session, line);
  if (session.test === null) throw outOfTurn(line, 'no test is open');
  // What was read stands to be judged at the desk too.
  if (session.closed !== null && line.kind !== 'reading-voided')
    throw outOfTurn(line, 'the test is closed');
  if (session.postponed !== null && OF_AN_OPEN_DAY.has(line.kind))
    throw outOfTurn(line, 'the test is postponed');
  switch (line.kind) {
    case 'shift-begun':
      return begun(session, line);
    case 'weight-landed':
      return landed(session, line);
    case 'reading':
      return read(session, line);
    case 'reading-voided':
      return voided(session, line);
    case 'hand-reading':
      return changed(session, line, line.body.state, (state) => ({
        ...state,
        handReadings: [...state.handReadings, { reading: line.body, written: writtenOf(line) }],
      }));
    case 'test-closed':
      return { ...session, closed: { written: writtenOf(line), reason: line.body.reason } };
  }
}

function opened(session: SessionState, line: LineOf<'test-opened'>): SessionState {
  if (session.test !== null) throw outOfTurn(line, 'a test is open already');
  const weightsAt: Record<string, Place> = Object.fromEntries(
    line.body.weights.map(({ weight, at }) => [weight, at]),
  );
  return {
    ...session,
    test: line.body,
    testOpened: writtenOf(line),
    weightsAt,
    states: [{ ...UNREAD, state: 0 }],
  };
}

function begun(session: SessionState, line: LineOf<'shift-begun'>): SessionState {
  if (line.body.state !== session.states.length)
    throw outOfTurn(line, `state ${line.body.state} does not follow`);
  const { predictedDegreesOfFreedom = freedomOfLine(session), ...body } = line.body;
  const asWritten = shiftAsWritten(session, line.body);
  const state = {
    ...UNREAD,
    ...body,
    asWritten,
    predictedDegreesOfFreedom,
    begun: writtenOf(line),
  };
  return { ...session, states: [...session.states, state] };
}

/** Lines that do not say it: a straight line through the states read by then has two fewer. */
function freedomOfLine({ states }: SessionState): number | null {
  const read = states.filter((state) => state.reading !== null).length;
  return read >= 3 ? read - 2 : null;
}

function landed(session: SessionState, line: LineOf<'weight-landed'>): SessionState {
  const last = session.states.at(-1);
  if (last === undefined || last.state !== line.body.state || last.begun === null || last.landed)
    throw outOfTurn(line, `no weights are under way to state ${line.body.state}`);
  const moved = Object.fromEntries(last.moves.map(({ weight, to }) => [weight, to]));
  const weightsAt = { ...session.weightsAt, ...moved };
  return changed({ ...session, weightsAt }, line, last.state, (state) => ({
    ...state,
    landedS: line.body.landedS,
    landed: writtenOf(line),
  }));
}

function read(session: SessionState, line: LineOf<'reading'>): SessionState {
  return changed(session, line, line.body.state, (state) => {
    if (state.reading !== null) throw outOfTurn(line, `state ${state.state} is read already`);
    return { ...state, reading: line.body, readingWritten: writtenOf(line) };
  });
}

function voided(session: SessionState, line: LineOf<'reading-voided'>): SessionState {
  const state = session.states.find((each) => each.readingWritten?.line === line.body.line);
  if (state?.reading == null || state.readingWritten === null)
    throw outOfTurn(line, `line ${line.body.line} is no reading in force`);
  const entry = {
    reading: state.reading,
    written: state.readingWritten,
    reason: line.body.reason,
    voided: writtenOf(line),
  };
  return changed(session, line, state.state, (each) => ({
    ...each,
    reading: null,
    readingWritten: null,
    voided: [...each.voided, entry],
  }));
}

function changed(
  session: SessionState,
  line: DayLine,
  number: number,
  change: (state: ShiftState) => ShiftState,
): SessionState {
  const state = session.states[number];
  if (state === undefined) throw outOfTurn(line, `there is no state ${number}`);
  return { ...session, states: session.states.with(number, change(state)) };
}

function outOfTurn(line: DayLine, found: string): Fault {
  return new Fault('record-line', `line ${line.n} (${line.kind})`, found);
}

/** A state nothing is known of yet. */
export const UNREAD: Omit<ShiftState, 'state'> = {
  moves: [],
  heelingMomentTM: 0,
  asWritten: null,
  predictedHeelDeg: null,
  predictedStandardErrorDeg: null,
  predictedDegreesOfFreedom: null,
  begun: null,
  landedS: null,
  landed: null,
  reading: null,
  readingWritten: null,
  voided: [],
  putBack: [],
  handReadings: [],
};
