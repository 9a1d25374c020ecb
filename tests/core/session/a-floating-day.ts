import { readFileSync } from 'node:fs';
import type { EntryLine } from '#core/record/entry-line.ts';
import { entered } from '../../support/entries.ts';

/** The lines of the demo's vessel as a table of offsets. */
export const OFFSETS = readFileSync(
  new URL('../../../device/emulated/marram-offsets.csv', import.meta.url),
  'utf8',
);
export const OFFSETS_HULL = {
  form: 'offsets',
  file: 'lines.csv',
  text: OFFSETS,
  knText: null,
  densityKgM3: null,
  volumeUncertaintyShare: 0.004,
  kmUncertaintyM: 0.004,
} as const;

/** Upright and level at 1.9 m over the baseline: the points are 2.7 m up. */
export const FLOATING: EntryLine[] = [
  entered('hull', 'hull', OFFSETS_HULL),
  entered('vessel', 'vessel', {
    lengthM: 15,
    readingUncertaintyM: 0.004,
    hydrometerUncertaintyKgM3: 0.5,
    freeSurfaceUncertaintyShare: 0.1,
  }),
  ...[1, 4, 7.5, 11, 14].flatMap((xM) =>
    (['port', 'starboard'] as const).map((side) =>
      entered('freeboard', `${side} ${xM}`, {
        side,
        xM,
        halfBreadthM: 2.3,
        heightM: 2.7,
        freeboardM: 0.8,
      }),
    ),
  ),
  entered('water', 'amidships', { densityKgM3: 1024, temperatureC: 11 }),
];
