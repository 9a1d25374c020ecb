import { changesOf } from '#core/session/changes.ts';
import type { SessionState, Written } from '#core/session/session.ts';
import { movesInWords } from '../shifts/day.ts';
import { capital, duration, fixed } from '../show/figure.ts';
import { entryWords, rowName } from '../survey/sheet-words.ts';
import { fieldText } from './field-text.ts';

/** What a witness asks for, as a title. */
export const ASKED = { repeat: 'A repeat asked for', objection: 'Objection' } as const;

/** One entry of the day as a person would tell it. */
export interface ActTold {
  readonly written: Written;
  readonly words: string;
  readonly struck: boolean;
}

/** Every human act the state knows of, newest first; the order is that of the record's lines. */
export function actsOf(session: SessionState): ActTold[] {
  const acts: ActTold[] = [];
  const add = (written: Written | null, words: string, struck = false) => {
    if (written !== null) acts.push({ written, words, struck });
  };
  add(session.testOpened, `Test opened: ${session.test?.vessel}, ${session.test?.at}`);
  for (const state of session.states) {
    // A state that no shift led to is one read again when the test was resumed.
    if (state.asWritten !== null) {
      add(state.begun, `Shift ${state.state} begun: ${movesInWords(state.moves)}`);
      add(state.landed, `Weight down, shift ${state.state}`);
    }
    add(state.readingWritten, `Reading ${state.state} taken`);
    for (const voided of state.voided) {
      add(voided.written, `Reading ${state.state} taken`, true);
      add(
        voided.voided,
        `Reading ${state.state} of line ${voided.written.line} voided: ${voided.reason}`,
      );
    }
    for (const { written, voided, reason, putBack } of state.putBack) {
      const reading = `Reading ${state.state} of line ${written.line}`;
      add(voided, `${reading} voided: ${reason}`, true);
      add(putBack.written, `${reading} put back: ${putBack.reason}`);
    }
    for (const { reading, written } of state.handReadings) {
      const kind = reading.kind === 'pendulum' ? 'Pendulum' : 'U-tube';
      add(
        written,
        `${kind} ${reading.instrument} read by hand at state ${state.state} by ${reading.reader}`,
      );
    }
  }
  for (const { what, written, reason, kind, fields } of changesOf(session)) {
    if (kind === 'reading-voided' || kind === 'reading-put-back') continue;
    const values = fields
      .map(({ was, is }) => `was ${fieldText(was)}, is ${fieldText(is)}`)
      .join('; ');
    const fellAway = kind === 'correction' && fallen(session, written.line);
    add(written, `${capital(what)}${values === '' ? '' : `: ${values}`}. ${reason}`, fellAway);
  }
  const now = session.postponed === null ? [] : [session.postponed];
  for (const { written, reason } of [...session.pauses.map((each) => each.postponed), ...now])
    add(written, `Test postponed: ${reason}`);
  for (const { resumed } of session.pauses) add(resumed.written, `Test resumed: ${resumed.reason}`);
  for (const { instrument, written, reason } of session.remounted)
    add(written, `${instrument} put down anew: ${reason}`);
  for (const { disturbance, overruled } of session.disturbances) {
    const seconds = duration(disturbance.toS - disturbance.fromS);
    add(
      overruled?.written ?? null,
      `${capital(disturbance.kind)}, ${seconds}, counts after all: ${overruled?.reason}`,
    );
  }
  for (const { written, rolled, refused } of session.rollRuns) {
    const period = `${fixed(rolled.run.periodS.value, 2)} s`;
    const what = rolled.run.refused === null ? 'Run of free roll' : 'Rolling refused as a run';
    add(written, `${what}, ${period}`, refused !== null);
    if (refused !== null)
      add(refused.written, `Run of line ${written.line} left out: ${refused.reason}`);
  }
  for (const { mark, words, written } of session.timeMarks)
    add(written, `Time mark ${mark}${words === '' ? '' : `: ${words}`}`);
  for (const remark of session.remarks) {
    const about = remark.line === null ? '' : ` (on line ${remark.line})`;
    add(remark.written, `Remark${about}: ${remark.text}`);
  }
  for (const entry of session.survey.entries) {
    const again = entry.occasion === 'closing' ? ', taken again' : '';
    const before = entry.earlier.at(-1);
    const instead = before === undefined ? '' : ` (in the place of line ${before})`;
    add(entry.written, `${rowName(entry)}${again}: ${entryWords(entry)}${instead}`);
  }
  for (const { written, of, caption } of session.survey.photographs)
    add(written, `Photograph of ${of?.key ?? 'the vessel'}${caption === '' ? '' : `: ${caption}`}`);
  addPeople(session.people, add);
  add(session.closed?.written ?? null, `Test closed: ${session.closed?.reason ?? ''}`);
  return acts.sort((a, b) => b.written.line - a.written.line);
}

function addPeople(
  people: SessionState['people'],
  add: (written: Written | null, words: string) => void,
): void {
  for (const one of people.admitted) {
    add(one.written, `${one.name} let in as ${one.role}, from ${one.way}`);
    add(one.withdrawn, `${one.name}, ${one.role}, put out`);
  }
  for (const ask of people.asks) {
    const about = ask.line === null ? '' : ` (on line ${ask.line})`;
    add(ask.written, `${ASKED[ask.what]}${about}: ${ask.text}`);
    for (const answer of ask.answers)
      add(answer.written, `Answer to line ${ask.written.line}: ${answer.text}`);
  }
  for (const receipt of people.receipts) add(receipt.written, `Receipt of ${receipt.lines} lines`);
  for (const seal of people.seals) {
    add(seal.written, `Sealed: ${seal.reason}`);
    for (const signature of seal.signatures)
      add(signature.written, `Signed the seal of line ${seal.written.line}`);
  }
  if (people.technicianWork !== null)
    add(people.technicianWork.written, `Technician let in: ${people.technicianWork.reason}`);
}

function fallen({ corrected }: SessionState, line: number): boolean {
  return corrected.some(({ corrections }) =>
    corrections.some(({ written, overruled }) => written.line === line && overruled !== null),
  );
}
