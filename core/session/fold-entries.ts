import { Fault } from '../fault/fault.ts';
import type { EntryLine } from '../record/entry-line.ts';
import type { Line } from '../record/line.ts';
import { entryLike, type SurveyEntry, type SurveyState } from './survey-state.ts';
import { writtenOf } from './written.ts';

/** Rows of all sheets together, and pictures: a large survey has a third of it. */
const MOST_ENTRIES = 1500;
const MOST_PHOTOGRAPHS = 300;
/** Times one row may be entered over. */
const MOST_CHANGES = 200;

/** The survey after one of its lines; one that names another row than stands there throws `record-line`. */
export function surveyAfter(
  survey: SurveyState,
  line: Extract<Line, { kind: 'entry' | 'photograph' }>,
): SurveyState {
  const refusal =
    line.kind === 'entry' ? entryPlaceRefusal(survey, line.body) : photographRefusal(survey);
  if (refusal !== null)
    throw new Fault('record-line', `line ${line.n} (${line.kind})`, refusal.report.found);
  if (line.kind === 'photograph') {
    const { of, caption, jpeg } = line.body;
    const bytes = (jpeg.length / 4) * 3 - (/=*$/.exec(jpeg)?.[0].length ?? 0);
    const photograph = { written: writtenOf(line), of, caption, bytes };
    return { ...survey, photographs: [...survey.photographs, photograph] };
  }
  return { ...survey, entries: entriesAfter(survey, line) };
}

function entriesAfter(
  survey: SurveyState,
  line: Extract<Line, { kind: 'entry' }>,
): readonly SurveyEntry[] {
  const { was, value, ...row } = line.body;
  const before = entryLike(survey, line.body);
  const { entries } = survey;
  if (value === null) return entries.filter((one) => one !== before);
  const earlier = before === undefined || was === null ? [] : [...before.earlier, was];
  // The form of a line ties its value to its sheet; the union of all sheets does not show it.
  const entry = { ...row, value, written: writtenOf(line), earlier } as SurveyEntry;
  if (before === undefined) return [...entries, entry];
  return entries.with(entries.indexOf(before), entry);
}

/** Why an entry cannot stand where it says it does; null: it can. */
export function entryPlaceRefusal(survey: SurveyState, entry: EntryLine): Fault | null {
  const before = entryLike(survey, entry);
  const where = `${entry.sheet} ${entry.key}`;
  const stands = before?.written.line ?? null;
  if (stands !== entry.was)
    return new Fault(
      'entry-stale',
      where,
      stands === null
        ? `line ${entry.was} is not in force`
        : `line ${stands} by ${before!.written.author} stands there`,
    );
  if (entry.value === null && before === undefined)
    return new Fault('entry-unfit', where, 'there is no such row to take off');
  if (before !== undefined && before.earlier.length >= MOST_CHANGES)
    return new Fault('entry-unfit', where, `changed ${MOST_CHANGES} times already`);
  if (before === undefined && survey.entries.length >= MOST_ENTRIES)
    return new Fault('entry-unfit', where, `over ${MOST_ENTRIES} rows`);
  return null;
}

export function photographRefusal(survey: SurveyState): Fault | null {
  if (survey.photographs.length < MOST_PHOTOGRAPHS) return null;
  return new Fault('entry-unfit', 'photograph', `over ${MOST_PHOTOGRAPHS} photographs`);
}
