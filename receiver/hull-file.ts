import { readFileSync, statSync } from 'node:fs';
import { dirname, extname, join } from 'node:path';
import { readSheet } from 'read-excel-file/node';
import { Fault } from '#core/fault/fault.ts';
import { type Cell, type Grid, gridFromCells, gridFromCsv } from '#core/hull/grid.ts';
import type { Hull } from '#core/hull/hull.ts';
import { type HullInput, hullInput } from '#core/hull/hull-input.ts';
import { hullFromOffsets, offsetsFromSections } from '#core/hull/make-hull.ts';
import { offsetsFromGrid } from '#core/hull/offsets.ts';
import { checkWorkbookSizes } from '#core/hull/workbook-sizes.ts';

const MOST_BYTES = 4 * 1024 * 1024;

/**
 * A hull from a file: a hull file (JSON, with its table of offsets beside it or inside), or a table of
 * offsets alone (CSV or XLSX, first sheet). Throws the codes of `core/hull` with file, row and column,
 * `file-not-readable`, `input-too-large`, `input-not-json`, `input-shape`.
 */
export async function hullFromFile(path: string): Promise<Hull> {
  if (extname(path).toLowerCase() !== '.json') {
    const table = offsetsFromGrid(await gridFromFile(path));
    return hullFromOffsets(table, { name: path, offsetsAre: 'outside' });
  }
  const parts = hullParts(path);
  const table =
    typeof parts.offsets === 'string'
      ? offsetsFromGrid(await gridFromFile(besideFile(path, parts.offsets)))
      : offsetsFromSections(parts.offsets, path);
  return hullFromOffsets(table, parts);
}

/** A table of offsets lies beside its hull file: no other folder is looked into. */
function besideFile(path: string, name: string): string {
  if (/[\\/]/.test(name)) {
    throw new Fault(
      'input-shape',
      `${path}: offsets`,
      'the name of a file beside it, without a folder',
    );
  }
  return join(dirname(path), name);
}

function hullParts(path: string): HullInput {
  let json: unknown;
  try {
    json = JSON.parse(bytesOf(path).toString('utf8'));
  } catch (error) {
    if (error instanceof Fault) throw error;
    throw new Fault('input-not-json', path, (error as Error).message);
  }
  const checked = hullInput.safeParse(json);
  if (checked.success) return checked.data;
  const issue = checked.error.issues[0];
  const field = issue?.path.map(String).join('.') || 'the whole';
  throw new Fault('input-shape', `${path}: ${field}`, issue?.message ?? 'not of the agreed form');
}

/** The cells of a CSV, or of the first sheet of an XLSX workbook. */
export async function gridFromFile(path: string): Promise<Grid> {
  const bytes = bytesOf(path);
  if (extname(path).toLowerCase() !== '.xlsx') return gridFromCsv(path, bytes.toString('utf8'));
  checkWorkbookSizes(path, bytes);
  let cells: Cell[][];
  try {
    cells = (await readSheet(bytes)) as Cell[][];
  } catch (error) {
    throw new Fault('file-not-readable', path, `as a workbook: ${(error as Error).message}`);
  }
  return gridFromCells(path, cells);
}

/** The bytes of a file of a hull. Throws `file-not-readable`, `input-too-large`. */
export function bytesOf(path: string): Buffer {
  try {
    const { size } = statSync(path);
    if (size > MOST_BYTES) {
      throw new Fault('input-too-large', path, `${size} bytes, at most ${MOST_BYTES}`);
    }
    return readFileSync(path);
  } catch (error) {
    if (error instanceof Fault) throw error;
    throw new Fault('file-not-readable', path, (error as Error).message);
  }
}
