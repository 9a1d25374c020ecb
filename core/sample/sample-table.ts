import { Fault } from '../fault/fault.ts';

/** A table of samples: times and one column or more, null where a field is empty. */
export interface SampleTable {
  readonly timeS: readonly number[];
  readonly columns: readonly {
    readonly name: string;
    readonly values: readonly (number | null)[];
  }[];
}

export const MOST_TABLE_ROWS = 5_000_000;
const MOST_TABLE_COLUMNS = 13;

/**
 * Reads text `timeS,heelDeg[,more]`: comma, semicolon or tab between fields, a decimal comma where
 * fields are not parted by commas, a header or none, empty fields for missing values. Nothing is
 * guessed: what is no number is a fault with its row and column, counted from 1.
 *
 * Throws `table-field`, `table-columns`, `input-too-few`, `input-too-large`.
 */
export function sampleTableFromText(text: string): SampleTable {
  const rows = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  while (rows.length > 0 && rows.at(-1)!.trim() === '') rows.pop();
  if (rows.length > MOST_TABLE_ROWS) {
    throw new Fault('input-too-large', 'table', `${rows.length} rows, at most ${MOST_TABLE_ROWS}`);
  }
  const delimiter = delimiterOf(rows[0] ?? '');
  const first = (rows[0] ?? '').split(delimiter).map((field) => field.trim().replace(/^"|"$/g, ''));
  const headed =
    numberOf(first[0] ?? '', delimiter) === undefined && !isNumber(first[1], delimiter);
  if (first.length < 2) {
    throw new Fault('table-columns', 'row 1', `${first.length} field, wanted timeS and heelDeg`);
  }
  if (first.length > MOST_TABLE_COLUMNS) {
    throw new Fault('input-too-large', 'row 1', `${first.length} columns`);
  }
  const timeS: number[] = [];
  const values: (number | null)[][] = first.slice(1).map(() => []);
  for (let row = headed ? 1 : 0; row < rows.length; row++) {
    const fields = rows[row]!.split(delimiter);
    if (fields.length !== first.length) {
      const found = `${fields.length} fields, the first row has ${first.length}`;
      throw new Fault('table-columns', `row ${row + 1}`, found);
    }
    fields.forEach((field, column) => {
      const value = numberOf(field.trim(), delimiter);
      if (value === undefined || (value === null && column === 0)) {
        const place = `row ${row + 1}, column ${column + 1}`;
        throw new Fault('table-field', place, JSON.stringify(field.slice(0, 40)));
      }
      if (column === 0) timeS.push(value!);
      else values[column - 1]!.push(value);
    });
  }
  if (timeS.length < 2) throw new Fault('input-too-few', 'table', `${timeS.length} rows`);
  return {
    timeS,
    columns: values.map((column, k) => ({
      name: headed && first[k + 1] !== '' ? first[k + 1]! : `column ${k + 2}`,
      values: column,
    })),
  };
}

/** Semicolon and tab first: beside them a comma is a decimal comma. */
function delimiterOf(row: string): string {
  if (row.includes(';')) return ';';
  if (row.includes('\t')) return '\t';
  return ',';
}

function isNumber(field: string | undefined, delimiter: string): boolean {
  return field !== undefined && typeof numberOf(field, delimiter) === 'number';
}

/** A number, null for an empty field, undefined for anything else. */
function numberOf(field: string, delimiter: string): number | null | undefined {
  if (field === '') return null;
  const plain = delimiter === ',' ? field : field.replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(plain)) return undefined;
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined;
}
