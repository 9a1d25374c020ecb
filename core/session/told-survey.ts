import type { HullText } from '../record/entry-line.ts';
import type { SessionState } from './session.ts';
import { entriesOf } from './survey-state.ts';

/** The hull in force with the number of its line. */
export interface EnteredHull {
  readonly line: number;
  readonly hull: HullText;
}

export function enteredHull({ survey }: Pick<SessionState, 'survey'>): EnteredHull | null {
  const [entry] = entriesOf(survey, 'hull');
  return entry === undefined ? null : { line: entry.written.line, hull: entry.value };
}

/** The session as screens are sent it: the text of the hull, which changes once a day, goes by itself. */
export function withoutHullText(session: SessionState): SessionState {
  const { survey } = session;
  if (!survey.entries.some(({ sheet }) => sheet === 'hull')) return session;
  const entries = survey.entries.map((one) =>
    one.sheet === 'hull' ? { ...one, value: { ...one.value, text: '', knText: null } } : one,
  );
  return { ...session, survey: { ...survey, entries } };
}
