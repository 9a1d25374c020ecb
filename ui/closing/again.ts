import type { SurveyEntry } from '#core/session/survey-state.ts';
import { fixed, signed } from '../show/figure.ts';
import { acrossWords } from '../survey/columns.ts';
import type { FormName } from '../survey/forms.ts';

/** How the rows of a sheet are set beside themselves, taken again. */
export interface Again {
  readonly name: FormName;
  /** Fields that are read anew; all else is as it was. */
  readonly anew: readonly string[];
  readonly head: string;
  /** What is compared, a number or words; null: the row has none. */
  readonly of: (entry: SurveyEntry) => number | string | null;
  readonly digits: number;
}

export const AGAIN = {
  freeboards: {
    name: 'freeboard',
    anew: ['freeboardM'],
    head: 'Freeboard, m',
    of: (entry) => (entry.sheet === 'freeboard' ? entry.value.freeboardM : null),
    digits: 3,
  },
  tanks: {
    name: 'tank',
    anew: ['sounding.depthM', 'volumeM3'],
    head: 'Sounding, m',
    of: (entry) => (entry.sheet === 'tank' ? (entry.value.sounding?.depthM ?? null) : null),
    digits: 3,
  },
  people: {
    name: 'person',
    anew: [],
    head: 'Where they stand: x, y',
    of: (entry) =>
      entry.sheet === 'item' && entry.value.kind === 'person'
        ? `${fixed(entry.value.at.xM, 2)}, ${acrossWords(entry.value.at.yM)}`
        : null,
    digits: 0,
  },
} as const satisfies Readonly<Record<string, Again>>;

export function againWords({ digits }: Again, value: number | string | null): string {
  if (value === null) return '';
  return typeof value === 'number' ? fixed(value, digits) : value;
}

/** What changed between both takings; empty while one is missing. */
export function changeWords(
  { digits }: Again,
  before: number | string | null,
  after: number | string | null,
): string {
  if (before === null || after === null) return '';
  if (typeof before === 'number' && typeof after === 'number')
    return signed(after - before, digits);
  return before === after ? 'same' : 'elsewhere';
}
