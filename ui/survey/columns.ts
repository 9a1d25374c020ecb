import type { EntrySheet, EntryValue } from '#core/record/entry-line.ts';
import type { SurveyEntry } from '#core/session/survey-state.ts';
import { fixed, UNKNOWN } from '../show/figure.ts';
import type { FormName } from './forms.ts';
import { ITEM_KIND_WORDS } from './sheet-words.ts';

/** One column of a ruled table of rows. */
export interface Column {
  readonly head: string;
  readonly end?: boolean;
  readonly cell: (entry: SurveyEntry) => string;
}

/** A cell of rows of one sheet; rows of another have none. */
function of<S extends EntrySheet>(
  sheet: S,
  cell: (value: EntryValue<S>) => string,
): Column['cell'] {
  return (entry) => (entry.sheet === sheet ? cell(entry.value as EntryValue<S>) : UNKNOWN);
}

/** "2.10 p", "1.35 s": a place across with its side, the centreline without. */
export function acrossWords(yM: number): string {
  if (yM === 0) return fixed(0, 2);
  return `${fixed(Math.abs(yM), 2)} ${yM < 0 ? 'p' : 's'}`;
}

const yesNo = (yes: boolean) => (yes ? 'yes' : 'no');
const massAndPlace: readonly Column[] = [
  { head: 'Mass t', end: true, cell: of('item', ({ massT }) => fixed(massT, 3)) },
  { head: 'x m', end: true, cell: of('item', ({ at }) => fixed(at.xM, 2)) },
  { head: 'y m', end: true, cell: of('item', ({ at }) => acrossWords(at.yM)) },
  { head: 'z m', end: true, cell: of('item', ({ at }) => fixed(at.zM, 2)) },
];

/** What is shown of each row beside its name; a row opens to all of it. */
export const COLUMNS: Readonly<Partial<Record<FormName, readonly Column[]>>> = {
  freeboard: [
    { head: 'Side', cell: of('freeboard', ({ side }) => side) },
    { head: 'x m', end: true, cell: of('freeboard', ({ xM }) => fixed(xM, 2)) },
    { head: 'Freeboard m', end: true, cell: of('freeboard', ({ freeboardM: f }) => fixed(f, 3)) },
  ],
  mark: [
    { head: 'Side', cell: of('mark', ({ side }) => side) },
    { head: 'x m', end: true, cell: of('mark', ({ xM }) => fixed(xM, 2)) },
    { head: 'Draught m', end: true, cell: of('mark', ({ draughtM }) => fixed(draughtM, 3)) },
  ],
  water: [
    { head: 'kg/m³', end: true, cell: of('water', ({ densityKgM3: d }) => fixed(d, 1)) },
    {
      head: '°C',
      end: true,
      cell: of('water', ({ temperatureC: t }) => (t === null ? UNKNOWN : fixed(t, 1))),
    },
  ],
  tank: [
    { head: 't/m³', end: true, cell: of('tank', ({ densityTM3 }) => fixed(densityTM3, 3)) },
    {
      head: 'In it',
      end: true,
      cell: of('tank', ({ sounding, volumeM3 }) =>
        sounding === undefined
          ? `${fixed(volumeM3 ?? 0, 3)} m³`
          : `${fixed(sounding.depthM, 3)} m sounded`,
      ),
    },
    {
      head: 'Lightship',
      cell: of('tank', ({ partOfLightship }) => yesNo(partOfLightship === true)),
    },
  ],
  item: [
    { head: 'Done', cell: of('item', ({ kind }) => ITEM_KIND_WORDS[kind].short) },
    ...massAndPlace,
  ],
  person: [
    { head: 'Station', cell: of('item', ({ note }) => note ?? UNKNOWN) },
    ...massAndPlace.slice(0, 3),
  ],
  space: [
    { head: 'Opened', cell: of('space', ({ opened }) => yesNo(opened)) },
    { head: 'Sounded', cell: of('space', ({ sounded }) => yesNo(sounded)) },
    { head: 'By', cell: of('space', ({ by }) => by ?? UNKNOWN) },
  ],
  agreed: [{ head: 'For', cell: of('agreed', ({ as }) => as) }],
};
