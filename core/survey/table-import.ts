import type { Cell, Grid } from '../hull/grid.ts';
import { type ColumnForm, type FoundColumn, findHeader } from './table-columns.ts';

/** One row as it would be taken in: text and numbers by field, in the wanted units. */
export type ImportedFields = Readonly<Record<string, string | number | null>>;

/** What a table would give, before anybody takes it. Rows count from 1, as a person counts them. */
export interface TablePreview<T> {
  readonly columns: readonly FoundColumn[];
  readonly taken: readonly { readonly row: number; readonly value: T }[];
  readonly refused: readonly {
    readonly row: number;
    readonly field: string;
    readonly reason: string;
  }[];
  /** Empty rows, and rows of sums, that were passed over. */
  readonly passedOver: readonly number[];
}

export interface RowRefusal {
  readonly field: string;
  readonly reason: string;
}

export interface TableForm<T> {
  readonly columns: readonly ColumnForm[];
  /** The value of a row, or why it is none. */
  readonly value: (fields: ImportedFields) => { readonly taken: T } | RowRefusal;
}

/** A row that sums up is no thing of its own. */
const SUM = /^(total|sum|subtotal|together)\b/i;

/**
 * Every row of a table, taken or refused with its reason; nothing is corrected or filled in. A
 * number is a cell that is one, or its text with a decimal point, or with a decimal comma where that
 * cannot be anything else. Throws `table-columns`, `table-unit` for a header that cannot be read.
 */
export function previewTable<T>(grid: Grid, form: TableForm<T>): TablePreview<T> {
  const { columns, firstRow } = findHeader(grid, form.columns);
  const taken: TablePreview<T>['taken'][number][] = [];
  const refused: TablePreview<T>['refused'][number][] = [];
  const passedOver: number[] = [];
  for (let index = firstRow; index < grid.rows.length; index++) {
    const cells = grid.rows[index]!;
    const row = index + 1;
    if (isPassedOver(cells, columns)) {
      passedOver.push(row);
      continue;
    }
    const read = fieldsOf(cells, columns, form.columns, grid.decimalComma);
    if ('reason' in read) {
      refused.push({ row, ...read });
      continue;
    }
    const value = form.value(read.fields);
    if ('reason' in value) refused.push({ row, ...value });
    else taken.push({ row, value: value.taken });
  }
  return { columns, taken, refused, passedOver };
}

function isPassedOver(cells: readonly Cell[], columns: readonly FoundColumn[]): boolean {
  const own = columns.map(({ index }) => cells[index] ?? null);
  if (own.every((cell) => cell === null || (typeof cell === 'string' && cell.trim() === '')))
    return true;
  const first = own.find((cell) => typeof cell === 'string');
  return typeof first === 'string' && SUM.test(first.trim());
}

function fieldsOf(
  cells: readonly Cell[],
  columns: readonly FoundColumn[],
  forms: readonly ColumnForm[],
  decimalComma: boolean,
): { fields: ImportedFields } | { field: string; reason: string } {
  const fields: Record<string, string | number | null> = {};
  for (const form of forms) {
    const column = columns.find(({ field }) => field === form.field);
    const cell = column === undefined ? null : (cells[column.index] ?? null);
    const isEmpty = cell === null || (typeof cell === 'string' && cell.trim() === '');
    if (isEmpty) {
      if (form.needed) return { field: form.field, reason: 'it is empty' };
      fields[form.field] = null;
    } else if (form.unit === 'text') {
      fields[form.field] = cell instanceof Date ? cell.toISOString() : String(cell).trim();
    } else {
      const number = numberOf(cell, decimalComma);
      if (typeof number === 'string') return { field: form.field, reason: number };
      fields[form.field] = number / (column?.per ?? 1);
    }
  }
  return { fields };
}

/** The number, or why the cell is none. */
function numberOf(cell: Exclude<Cell, null>, decimalComma: boolean): number | string {
  if (typeof cell === 'number')
    return Number.isFinite(cell) ? cell : 'the cell holds no finite number';
  if (typeof cell !== 'string') return 'the cell holds no number';
  const written = cell.trim().replace('\u2212', '-');
  if (/^[+-]?\d+,\d{3}$/.test(written) && !decimalComma)
    return `${written} may be a thousand or a decimal comma`;
  const plain = /^[+-]?\d*,\d+$/.test(written) ? written.replace(',', '.') : written;
  const isNumber = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain);
  return isNumber && Number.isFinite(Number(plain))
    ? Number(plain)
    : `"${written.slice(0, 40)}" is no number`;
}
