import type { EntryLine, EntrySheet, EntryValue, Occasion } from '../record/entry-line.ts';
import type { Written } from './session.ts';

/** One row of a sheet as it stands now. */
export type SurveyEntry = {
  [S in EntrySheet]: {
    readonly written: Written;
    readonly sheet: S;
    readonly occasion: Occasion;
    readonly key: string;
    readonly value: EntryValue<S>;
    readonly fromPaper: boolean;
    /** Lines that stood in its place before, oldest first. */
    readonly earlier: readonly number[];
  };
}[EntrySheet];

export interface SurveyPhotograph {
  readonly written: Written;
  readonly of: { readonly sheet: EntrySheet; readonly key: string } | null;
  readonly caption: string;
  /** Of the JPEG itself, which stands in its line alone. */
  readonly bytes: number;
}

/** What was entered about the vessel, the water, the tanks and all that is aboard. */
export interface SurveyState {
  /** In the order they were first entered. */
  readonly entries: readonly SurveyEntry[];
  readonly photographs: readonly SurveyPhotograph[];
}

export const EMPTY_SURVEY: SurveyState = { entries: [], photographs: [] };

/** The rows of one sheet, in the order they were first entered. */
export function entriesOf<S extends EntrySheet>(
  survey: SurveyState,
  sheet: S,
  occasion: Occasion = 'before',
): Extract<SurveyEntry, { sheet: S }>[] {
  return survey.entries.filter(
    (one): one is Extract<SurveyEntry, { sheet: S }> =>
      one.sheet === sheet && one.occasion === occasion,
  );
}

/** The row a line of the same sheet, occasion and key would stand in the place of; undefined: none. */
export function entryLike(
  survey: SurveyState,
  { sheet, occasion, key }: Pick<EntryLine, 'sheet' | 'occasion' | 'key'>,
): SurveyEntry | undefined {
  return survey.entries.find(
    (one) => one.sheet === sheet && one.occasion === occasion && one.key === key,
  );
}
