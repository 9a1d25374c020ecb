import Papa from 'papaparse';
import { Fault } from '../fault/fault.ts';

/** A cell of a table as a reader of CSV or of a workbook gives it. */
export type Cell = string | number | boolean | Date | null;

/** A table of cells with the name of where it came from; rows count from 1 in every fault. */
export interface Grid {
  readonly name: string;
  readonly rows: readonly (readonly Cell[])[];
  /** Whether a comma inside a field is a decimal comma. */
  readonly decimalComma: boolean;
}

export const MOST_GRID_ROWS = 20_000;
const MOST_GRID_BYTES = 4 * 1024 * 1024;

/**
 * Reads CSV: comma, semicolon or tab between fields, quotes, a byte-order mark, any line ends. Beside
 * semicolon and tab a comma is a decimal comma. Throws `input-too-large`, `hull-columns`.
 */
export function gridFromCsv(name: string, text: string): Grid {
  if (text.length > MOST_GRID_BYTES) {
    throw new Fault(
      'input-too-large',
      name,
      `${text.length} characters, at most ${MOST_GRID_BYTES}`,
    );
  }
  const plain = text.replace(/^\uFEFF/, '');
  const first = plain.slice(0, plain.search(/[\r\n]|$/));
  const delimiter = first.includes(';') ? ';' : first.includes('\t') ? '\t' : ',';
  const parsed = Papa.parse<string[]>(plain, { delimiter, preview: MOST_GRID_ROWS + 1 });
  const broken = parsed.errors[0];
  if (broken !== undefined) {
    throw new Fault('hull-columns', `${name}: row ${(broken.row ?? 0) + 1}`, broken.message);
  }
  return checkedGrid({ name, rows: parsed.data, decimalComma: delimiter !== ',' });
}

/** A table of a workbook, its cells as the reader gave them. */
export function gridFromCells(name: string, rows: readonly (readonly Cell[])[]): Grid {
  return checkedGrid({ name, rows, decimalComma: false });
}

function checkedGrid(grid: Grid): Grid {
  if (grid.rows.length > MOST_GRID_ROWS) {
    throw new Fault('input-too-large', grid.name, `over ${MOST_GRID_ROWS} rows`);
  }
  return grid;
}

/** A row with its number as a person counts it. */
export interface GridRow<Column extends string> {
  readonly row: number;
  number(column: Column): number;
  /** Null where the column is not given or the cell is empty. */
  text(column: Column): string | null;
  place(column: Column): string;
}

/**
 * The rows under a header that names the columns, in any order; `optional` ones may be missing.
 * Without a header the wanted columns are taken in their order. Empty rows are passed over.
 * Throws `hull-columns`.
 */
export function rowsUnderHeader<Column extends string>(
  grid: Grid,
  wanted: readonly Column[],
  optional: readonly Column[] = [],
): GridRow<Column>[] {
  const from = grid.rows.findIndex((row) => !isEmpty(row));
  if (from < 0) throw new Fault('input-too-few', grid.name, 'the table is empty');
  const first = grid.rows[from]!;
  const headed = !first.some((cell) => numberOf(cell, grid.decimalComma) !== undefined);
  const places = headed ? headerOf(grid, from, wanted, optional) : wanted.map((_, k) => k);
  const columns = [...wanted, ...optional];
  const rows: GridRow<Column>[] = [];
  for (let index = headed ? from + 1 : from; index < grid.rows.length; index++) {
    const cells = grid.rows[index]!;
    if (!isEmpty(cells)) rows.push(rowOf(grid, index, cells, columns, places));
  }
  return rows;
}

function isEmpty(cells: readonly Cell[]): boolean {
  return cells.every((cell) => cell === null || String(cell).trim() === '');
}

function headerOf<Column extends string>(
  grid: Grid,
  row: number,
  wanted: readonly Column[],
  optional: readonly Column[],
): number[] {
  const names = grid.rows[row]!.map((cell) => String(cell ?? '').trim());
  const where = `${grid.name}: row ${row + 1}`;
  const unknown = names.find(
    (name) => name !== '' && ![...wanted, ...optional].some((one) => one === name),
  );
  if (unknown !== undefined) {
    throw new Fault(
      'hull-columns',
      where,
      `${JSON.stringify(unknown.slice(0, 40))} is not one of ${[...wanted, ...optional].join(', ')}`,
    );
  }
  const twice = names.find((name, k) => name !== '' && names.indexOf(name) !== k);
  if (twice !== undefined) throw new Fault('hull-columns', where, `${twice} stands twice`);
  const missing = wanted.find((name) => !names.includes(name));
  if (missing !== undefined) throw new Fault('hull-columns', where, `${missing} is missing`);
  return [...wanted, ...optional].map((name) => names.indexOf(name));
}

function rowOf<Column extends string>(
  grid: Grid,
  index: number,
  cells: readonly Cell[],
  columns: readonly Column[],
  places: readonly number[],
): GridRow<Column> {
  const row = index + 1;
  const place = (column: Column) => `${grid.name}: row ${row}, column ${column}`;
  const cellOf = (column: Column): Cell => {
    const at = places[columns.indexOf(column)] ?? -1;
    return at < 0 ? null : (cells[at] ?? null);
  };
  const widest = Math.max(...places) + 1;
  const extra = cells.findIndex(
    (cell, k) => k >= widest && cell !== null && String(cell).trim() !== '',
  );
  if (extra >= 0) {
    throw new Fault(
      'hull-columns',
      `${grid.name}: row ${row}`,
      `a field in column ${extra + 1}, which has no name`,
    );
  }
  return {
    row,
    place,
    number(column) {
      const cell = cellOf(column);
      const value = numberOf(cell, grid.decimalComma);
      if (value === undefined) {
        throw new Fault(
          'hull-number',
          place(column),
          JSON.stringify(String(cell ?? '').slice(0, 40)),
        );
      }
      return value;
    },
    text(column) {
      const cell = cellOf(column);
      return cell === null || String(cell).trim() === '' ? null : String(cell).trim();
    },
  };
}

/** A number, or undefined for what is none. */
function numberOf(cell: Cell, decimalComma: boolean): number | undefined {
  if (typeof cell === 'number') return Number.isFinite(cell) ? cell : undefined;
  if (typeof cell !== 'string') return undefined;
  const plain = decimalComma ? cell.trim().replace(',', '.') : cell.trim();
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(plain)) return undefined;
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined;
}
