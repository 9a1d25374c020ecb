import type { EntryLine, EntrySheet, EntryValue, Occasion } from '#core/record/entry-line.ts';
import type { SessionState } from '#core/session/session.ts';
import { entryLike } from '#core/session/survey-state.ts';
import type { Act } from '#core/wire/screen-message.ts';

/** The act that puts a value where a row stands now, as this window sees it. */
export function enterOver<S extends EntrySheet>(
  session: SessionState,
  row: { readonly sheet: S; readonly occasion: Occasion; readonly key: string },
  value: EntryValue<S> | null,
): Act {
  // The form of a line ties key and value to the sheet; three separate fields cannot show that.
  const entry = { ...row, value, was: null, fromPaper: false } as EntryLine;
  const stands = entryLike(session.survey, entry);
  return { kind: 'enter', entry: { ...entry, was: stands?.written.line ?? null } as EntryLine };
}
