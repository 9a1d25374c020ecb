import type { Line } from '../record/line.ts';
import { foldCertificateReplaced, latestOf } from './fold-certificate.ts';
import { foldCorrection } from './fold-corrections.ts';
import { foldDay } from './fold-day.ts';
import { surveyAfter } from './fold-entries.ts';
import { laptopAfter } from './fold-laptop.ts';
import { foldOverruled } from './fold-overruled.ts';
import { EMPTY_PEOPLE, peopleAfter, sealDigested } from './fold-people.ts';
import { foldPostponed } from './fold-postponed.ts';
import { foldRemounted } from './fold-remounted.ts';
import { rollRunsAfter } from './fold-roll.ts';
import { foldSign } from './fold-sign.ts';
import { foldStreams } from './fold-streams.ts';
import { timeMarksAfter } from './fold-time-mark.ts';
import type { SessionState } from './session.ts';
import { EMPTY_SURVEY } from './survey-state.ts';
import { writtenOf } from './written.ts';

/** Screens are sent the whole state, so what only informs is kept to the newest this many. */
const MOST_DISTURBANCES = 500;

/** What is known before the first line. */
export const EMPTY_SESSION: SessionState = {
  record: null,
  lines: 0,
  test: null,
  testOpened: null,
  corrected: [],
  simulation: null,
  mountings: [],
  certificates: [],
  replacedCertificates: [],
  remounted: [],
  signs: [],
  streams: [],
  faults: [],
  weightsAt: {},
  awaits: 'test',
  states: [],
  disturbances: [],
  stopTarget: null,
  rollRuns: [],
  rollCondition: null,
  survey: EMPTY_SURVEY,
  timeMarks: [],
  remarks: [],
  laptop: [],
  people: EMPTY_PEOPLE,
  postponed: null,
  pauses: [],
  closed: null,
};

/**
 * The session after one more line. A pure function of lines, live and in replay the same, so
 * that a record opened again stands where it stood. The line's form has been checked by
 * `readLine`; one that contradicts the lines before it throws `record-line`.
 */
export function foldLine(session: SessionState, line: Line): SessionState {
  const people = sealDigested(session.people, line);
  const before = people === session.people ? session : { ...session, people };
  return { ...foldKind(before, line), lines: line.n + 1 };
}

export function foldLines(lines: Iterable<Line>): SessionState {
  let session = EMPTY_SESSION;
  for (const line of lines) session = foldLine(session, line);
  return session;
}

function foldKind(session: SessionState, line: Line): SessionState {
  switch (line.kind) {
    case 'record-opened':
      return { ...session, record: line.body.record };
    case 'stream-opened':
    case 'samples':
    case 'stream-fault':
    case 'stream-closed':
      return foldStreams(session, line);
    case 'test-opened':
    case 'shift-begun':
    case 'weight-landed':
    case 'reading':
    case 'reading-voided':
    case 'hand-reading':
    case 'test-closed':
      return foldDay(session, line);
    case 'test-postponed':
    case 'test-resumed':
      return foldPostponed(session, line);
    case 'simulation':
      return { ...session, simulation: line.body };
    case 'certificate':
      return { ...session, certificates: latestOf(session.certificates, line.body) };
    case 'certificate-replaced':
      return foldCertificateReplaced(session, line);
    case 'instrument-remounted':
      return foldRemounted(session, line);
    case 'sign-confirmed':
      return foldSign(session, line);
    case 'correction':
      return foldCorrection(session, line);
    case 'overruled':
      return foldOverruled(session, line);
    case 'mounting':
      return { ...session, mountings: latestOf(session.mountings, line.body) };
    case 'disturbance':
      return {
        ...session,
        disturbances: [
          ...session.disturbances.slice(-(MOST_DISTURBANCES - 1)),
          { written: writtenOf(line), disturbance: line.body, overruled: null },
        ],
      };
    case 'roll-run':
    case 'roll-run-refused':
      return { ...session, rollRuns: rollRunsAfter(session.rollRuns, line) };
    case 'roll-condition':
      return { ...session, rollCondition: { written: writtenOf(line), told: line.body } };
    case 'entry':
    case 'photograph':
      return { ...session, survey: surveyAfter(session.survey, line) };
    case 'time-mark':
      return { ...session, timeMarks: timeMarksAfter(session, line) };
    case 'remark':
      return {
        ...session,
        remarks: [...session.remarks, { written: writtenOf(line), ...line.body }],
      };
    case 'laptop-state':
      return { ...session, laptop: laptopAfter(session.laptop, line) };
    case 'person-admitted':
    case 'access-withdrawn':
    case 'witness-asked':
    case 'witness-answered':
    case 'receipt-taken':
    case 'seal':
    case 'signature':
    case 'technician-work':
      return { ...session, people: peopleAfter(session.people, line) };
    case 'stop-target':
      return { ...session, stopTarget: line.body };
    case 'station-clock':
    case 'board-clock':
    case 'watching':
    case 'record-repaired':
      return session;
  }
}
