import { Fault } from '../fault/fault.ts';
import { fieldsOfRow, numberOfField } from './sample-field.ts';
import { unitOfColumn } from './sample-unit.ts';

export const MOST_TABLE_COLUMNS = 13;
/** A line longer than this is no row of samples. */
const MOST_LINE_CHARACTERS = 4096;
export const MOST_TABLE_ROWS = 50_000_000;

/** What a reader of rows is told: the names once, then each row, null where a field is empty. */
export interface RowTaker {
  columns(names: readonly string[]): void;
  row(timeS: number, values: readonly (number | null)[], line: number): void;
}

/**
 * Text `timeS,heelDeg[,more]`, taken in pieces of any size: comma, semicolon or tab between fields,
 * a decimal comma where fields are not parted by commas or stand in quotes, a header or none, a row
 * of units under it, blank lines, and comment lines that begin with `#` or `%`. Seconds and degrees;
 * milliseconds and radians are taken where header or units say so. Nothing is guessed: what is no
 * number is a fault with its line and column, counted from 1. Constant memory.
 *
 * Throws `table-field`, `table-columns`, `table-unit`, `table-time`, `input-too-few`, `input-too-large`.
 */
export class SampleRows {
  private rest = '';
  private line = 0;
  private delimiter: string | null = null;
  private header: string[] | null = null;
  private units: string[] | null = null;
  private scales: number[] = [];
  private columns = 0;
  private rows = 0;
  private forward = 0;
  private latestS = Number.NEGATIVE_INFINITY;

  constructor(private readonly taker: RowTaker) {}

  push(text: string): void {
    const whole =
      this.rest + (this.line === 0 && this.rest === '' ? text.replace(/^\uFEFF/, '') : text);
    let from = 0;
    for (;;) {
      const end = endOfLine(whole, from);
      if (end === null) break;
      this.takeLine(whole.slice(from, end.at));
      from = end.next;
    }
    this.rest = whole.slice(from);
    if (this.rest.length > MOST_LINE_CHARACTERS) this.lineTooLong(this.line + 1);
  }

  /** No more text comes. */
  finish(): void {
    if (this.rest !== '') this.takeLine(this.rest.replace(/\r$/, ''));
    this.rest = '';
    if (this.rows < 2) throw new Fault('input-too-few', 'table', `${this.rows} rows`);
    if (this.forward < this.rows / 2) {
      const found = `time goes forward in ${this.forward} of ${this.rows} rows`;
      throw new Fault('table-time', 'column 1', found);
    }
  }

  private takeLine(text: string): void {
    this.line += 1;
    if (text.length > MOST_LINE_CHARACTERS) this.lineTooLong(this.line);
    const row = text.trim();
    if (row === '' || row.startsWith('#') || row.startsWith('%')) return;
    this.delimiter ??= delimiterOf(row);
    const fields = fieldsOfRow(text, this.delimiter);
    if (fields === null) throw this.fault('table-field', 1, text);
    if (this.columns === 0) this.begin(fields);
    else if (fields.length !== this.columns) {
      const found = `${fields.length} fields, the first row has ${this.columns}`;
      throw new Fault('table-columns', `line ${this.line}`, found);
    }
    if (this.rows === 0 && this.isWords(fields)) {
      if (this.header === null) this.header = fields;
      else if (this.units === null) this.units = fields;
      else throw this.fault('table-field', 1, fields[0]!);
      return;
    }
    this.takeRow(fields);
  }

  private begin(fields: readonly string[]): void {
    if (fields.length < 2) {
      const found = `${fields.length} field, wanted timeS and heelDeg`;
      throw new Fault('table-columns', `line ${this.line}`, found);
    }
    if (fields.length > MOST_TABLE_COLUMNS) {
      const found = `${fields.length} columns, at most ${MOST_TABLE_COLUMNS}`;
      throw new Fault('input-too-large', `line ${this.line}`, found);
    }
    this.columns = fields.length;
  }

  /** A header or a row of units: no field of it is a number. */
  private isWords(fields: readonly string[]): boolean {
    return fields[0] !== '' && fields.every((field) => typeof numberOfField(field) !== 'number');
  }

  private takeRow(fields: readonly string[]): void {
    if (this.rows === 0) this.startRows();
    if (this.rows === MOST_TABLE_ROWS) {
      throw new Fault('input-too-large', `line ${this.line}`, `over ${MOST_TABLE_ROWS} rows`);
    }
    const values = fields.map((field, column) => {
      const value = numberOfField(field);
      if (value === undefined || (value === null && column === 0)) {
        throw this.fault('table-field', column + 1, field);
      }
      return value === null ? null : value * this.scales[column]!;
    });
    const timeS = values[0]!;
    this.rows += 1;
    if (timeS > this.latestS) {
      this.forward += 1;
      this.latestS = timeS;
    }
    this.taker.row(timeS, values.slice(1), this.line);
  }

  private startRows(): void {
    const column = Array.from({ length: this.columns }, (_, k) => k);
    const where = `line ${this.line}`;
    this.scales = column.map((k) =>
      unitOfColumn(k === 0 ? 'time' : 'heel', this.header?.[k], this.units?.[k], where, k + 1),
    );
    this.taker.columns(column.slice(1).map((k) => this.header?.[k] || `column ${k + 1}`));
  }

  private fault(code: 'table-field', column: number, field: string): Fault {
    return new Fault(
      code,
      `line ${this.line}, column ${column}`,
      JSON.stringify(field.slice(0, 40)),
    );
  }

  private lineTooLong(line: number): never {
    throw new Fault('input-too-large', `line ${line}`, `over ${MOST_LINE_CHARACTERS} characters`);
  }
}

/** Where a line ends and the next begins; null: not in this text. A lone carriage return ends one too. */
function endOfLine(text: string, from: number): { at: number; next: number } | null {
  for (let k = from; k < text.length; k++) {
    const code = text.charCodeAt(k);
    if (code === 10) return { at: k, next: k + 1 };
    if (code !== 13) continue;
    // its line feed may stand in the next piece
    if (k + 1 === text.length) return null;
    return { at: k, next: text.charCodeAt(k + 1) === 10 ? k + 2 : k + 1 };
  }
  return null;
}

/** Semicolon and tab first: beside them a comma is a decimal comma. */
function delimiterOf(row: string): string {
  if (row.includes(';')) return ';';
  if (row.includes('\t')) return '\t';
  return ',';
}
