import type { EntryLine, EntrySheet, EntryValue, Occasion } from '#core/record/entry-line.ts';
import type { Line } from '#core/record/line.ts';
import { surveyAfter } from '#core/session/fold-entries.ts';
import { EMPTY_SURVEY, entryLike, type SurveyState } from '#core/session/survey-state.ts';

/** A row as it is entered; `was` of another one in its place is the caller's. */
export function entered<S extends EntrySheet>(
  sheet: S,
  key: string,
  value: EntryValue<S> | null,
  more: { was?: number | null; occasion?: Occasion; fromPaper?: boolean } = {},
): EntryLine {
  const { was = null, occasion = 'before', fromPaper = false } = more;
  return { sheet, occasion, key, value, was, fromPaper } as EntryLine;
}

export function entryAt(n: number, body: EntryLine): Extract<Line, { kind: 'entry' }> {
  return {
    n,
    kind: 'entry',
    v: 1,
    prev: '0'.repeat(64),
    wall: '2026-05-04T08:00:00.000Z',
    receiverS: n,
    author: 'A. Rowan',
    role: 'architect',
    body,
  };
}

/** The survey with these rows, each in the place of what stood there. */
export function surveyOf(rows: readonly EntryLine[], before = EMPTY_SURVEY): SurveyState {
  return rows.reduce((survey, row, k) => {
    const was = entryLike(survey, row)?.written.line ?? null;
    return surveyAfter(survey, entryAt(200 + k, { ...row, was }));
  }, before);
}
