import { Fault } from '../fault/fault.ts';
import { type HullAfloat, hullAfloatOf } from '../flotation/hull-afloat.ts';
import { tablesAfloat } from '../flotation/tables-afloat.ts';
import { gridFromCsv } from '../hull/grid.ts';
import type { Hull } from '../hull/hull.ts';
import type { HullKnownBy } from '../hull/hull-evidence.ts';
import { hullInput } from '../hull/hull-input.ts';
import { hullFromOffsets, offsetsFromSections } from '../hull/make-hull.ts';
import { hullFromMeasuredPoints, measuredPointsFromGrid } from '../hull/measured-points.ts';
import { checkedOffsets, offsetsFromGrid } from '../hull/offsets.ts';
import { hydrostaticTablesFromGrid, knTableFromGrid } from '../hull/tables.ts';
import type { HullText } from '../record/entry-line.ts';

/** A text that holds a hull, and what it is. */
export type HullFile = Pick<HullText, 'form' | 'file' | 'text'>;

/**
 * The hull of a text that was entered; null: hydrostatics as tables, which are no hull. Throws the
 * codes of `core/hull` with the file, row and column, `input-not-json`, `input-shape`.
 */
export function hullOfText({ form, file, text }: HullFile): Hull | null {
  switch (form) {
    case 'tables':
      return null;
    case 'offsets':
      return hullFromOffsets(offsetsFromGrid(gridFromCsv(file, text)), {
        name: file,
        offsetsAre: 'outside',
      });
    case 'points': {
      const made = hullFromMeasuredPoints(measuredPointsFromGrid(gridFromCsv(file, text)));
      return hullFromOffsets(checkedOffsets(made.stations, file), {
        name: file,
        offsetsAre: 'outside',
      });
    }
    case 'hull':
      return hullOfJson(file, text);
  }
}

function hullOfJson(file: string, text: string): Hull {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    throw new Fault('input-not-json', file, error instanceof Error ? error.message : 'not JSON');
  }
  const checked = hullInput.safeParse(json);
  if (!checked.success) {
    const [issue] = checked.error.issues;
    const field = issue?.path.map(String).join('.') || 'the whole';
    throw new Fault('input-shape', `${file}: ${field}`, issue?.message ?? 'not of the agreed form');
  }
  const { offsets, ...parts } = checked.data;
  if (typeof offsets === 'string')
    throw new Fault(
      'input-shape',
      `${file}: offsets`,
      'the table itself is wanted here, not the name of a file',
    );
  return hullFromOffsets(offsetsFromSections(offsets, file), parts);
}

/** The points a hull was made of and what was measured of her against it; null: neither. */
function knownBy({ form, file, text, spots }: HullText): HullKnownBy | null {
  const checks = spots === undefined || spots.length === 0 ? null : spots;
  if (form !== 'points') return checks === null ? null : { points: null, spots: checks };
  const measured = measuredPointsFromGrid(gridFromCsv(file, text));
  return { points: { measured, made: hullFromMeasuredPoints(measured) }, spots: checks };
}

/** The same as the float and the exact equation need it; `lengthM` between perpendiculars. */
export function hullAfloatOfText(entered: HullText, lengthM: number): HullAfloat {
  const hull = hullOfText(entered);
  if (hull !== null) return hullAfloatOf(hull, lengthM, knownBy(entered));
  const { file, text, knText, densityKgM3 } = entered;
  if (densityKgM3 === null)
    throw new Fault('input-contradiction', file, 'the density of the tables is not stated');
  const tables = hydrostaticTablesFromGrid(gridFromCsv(file, text), { densityKgM3, lengthM });
  const kn = knText === null ? null : knTableFromGrid(gridFromCsv(`${file}, KN`, knText));
  return tablesAfloat(tables, kn);
}
