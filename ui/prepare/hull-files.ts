import { Fault, type FaultReport } from '#core/fault/fault.ts';
import { gridFromCsv, rowsUnderHeader } from '#core/hull/grid.ts';
import { spotChecksInput } from '#core/hull/hull-evidence.ts';
import type { HullText } from '#core/record/entry-line.ts';

/** A file as the browser read it. */
export interface TextFile {
  readonly name: string;
  readonly text: string;
}

/** What a table of numbers without a hull file is. */
export type TableForm = Exclude<HullText['form'], 'hull'>;
type HullOfFiles = Pick<HullText, 'form' | 'file' | 'text' | 'knText' | 'spots'>;
export type HullFiles =
  | {
      readonly entered: HullOfFiles;
      readonly refused: null;
    }
  | { readonly entered: null; readonly refused: FaultReport };

/**
 * One text of the files that were chosen: a hull file (JSON) with the table of offsets it names put
 * into it, or a table, which `form` says the kind of; with tables a second one is KN.
 */
export function hullOfFiles(files: readonly TextFile[], form: TableForm): HullFiles {
  try {
    return { entered: entered(files, form), refused: null };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { entered: null, refused: error.report };
  }
}

/** A list in JSON is of spot checks; the hull itself is none. */
function entered(files: readonly TextFile[], form: TableForm): HullOfFiles {
  const spots = files.find((file) => isJson(file) && Array.isArray(parsed(file.name, file.text)));
  const hull = hullEntered(
    files.filter((file) => file !== spots),
    form,
  );
  if (spots === undefined) return hull;
  const checked = spotChecksInput.safeParse(parsed(spots.name, spots.text));
  if (checked.success) return { ...hull, spots: checked.data };
  const [issue] = checked.error.issues;
  const where = `${spots.name}: ${issue?.path.map(String).join('.') || 'the whole'}`;
  throw new Fault('input-shape', where, issue?.message ?? 'not of the agreed form');
}

const isJson = ({ name }: TextFile) => /\.json$/i.test(name);

function hullEntered(files: readonly TextFile[], form: TableForm): HullOfFiles {
  const json = files.find(isJson);
  const tables = files.filter((file) => file !== json);
  const [first] = tables;
  if (json !== undefined)
    return { form: 'hull', file: json.name, text: withOffsets(json, tables), knText: null };
  if (first === undefined) throw new Fault('input-too-few', 'hull', 'no file was chosen');
  if (form !== 'tables') {
    if (tables.length > 1)
      throw new Fault('input-contradiction', 'hull', `${tables.length} tables, one is wanted`);
    return { form, file: first.name, text: first.text, knText: null };
  }
  const kn = tables.find(({ text }) => /\bknM\b/.test(text.slice(0, 200)));
  const other = tables.find((file) => file !== kn);
  if (other === undefined)
    throw new Fault('input-too-few', 'hull', 'KN alone; displacement and KM are wanted beside it');
  return { form, file: other.name, text: other.text, knText: kn?.text ?? null };
}

/** A hull file may name its table as a file beside it: here that file has to be chosen with it. */
function withOffsets({ name, text }: TextFile, tables: readonly TextFile[]): string {
  const json = parsed(name, text);
  if (typeof json !== 'object' || json === null || !('offsets' in json)) return text;
  const { offsets } = json;
  if (typeof offsets !== 'string') return text;
  const table = tables.find((file) => file.name === offsets);
  if (table === undefined)
    throw new Fault(
      'input-shape',
      `${name}: offsets`,
      `it names ${JSON.stringify(offsets.slice(0, 80))}: choose that file together with it`,
    );
  return JSON.stringify({ ...json, offsets: sectionsOf(table) });
}

function parsed(name: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Fault('input-not-json', name, error instanceof Error ? error.message : 'not JSON');
  }
}

/** The points of a table of offsets, section by section in the order they stand in; nothing is left out. */
function sectionsOf({ name, text }: TextFile) {
  const wanted = ['xM', 'zM', 'halfBreadthM'] as const;
  type Column = (typeof wanted)[number] | 'knuckle';
  const rows = rowsUnderHeader<Column>(gridFromCsv(name, text), wanted, ['knuckle']);
  const sections = new Map<number, object[]>();
  for (const row of rows) {
    const xM = row.number('xM');
    const points = sections.get(xM) ?? [];
    const knuckle = row.text('knuckle');
    points.push({
      zM: row.number('zM'),
      halfBreadthM: row.number('halfBreadthM'),
      ...(knuckle === null ? {} : { knuckle: KNUCKLE[knuckle] ?? knuckle }),
    });
    sections.set(xM, points);
  }
  return [...sections].map(([xM, points]) => ({ xM, points }));
}

/** As a table of offsets says it; what is neither is left for the hull's own check to refuse. */
const KNUCKLE: Readonly<Record<string, boolean>> = { '1': true, yes: true, '0': false, no: false };
