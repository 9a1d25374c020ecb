/** What stands in one field of a table. A number is written as JSON has it, in full. */
export type CsvCell = string | number | null;

/**
 * Text beginning so is taken for a formula by spreadsheets; an apostrophe before it makes it text.
 * Only text is ever marked: a number is a number, also a negative one.
 */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * A table as CSV (RFC 4180): comma, CRLF, quotes where needed, decimal point, header first.
 * RangeError for a row of another length and for a number that is not finite.
 */
export function csvTable(header: readonly string[], rows: readonly (readonly CsvCell[])[]): string {
  const lines = [header, ...rows].map((row, k) => {
    if (row.length !== header.length) {
      throw new RangeError(`row ${k} has ${row.length} fields, the header ${header.length}`);
    }
    return row.map(csvCell).join(',');
  });
  return `${lines.join('\r\n')}\r\n`;
}

function csvCell(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') {
    if (!Number.isFinite(cell)) throw new RangeError(`${cell} is no number for a table`);
    return String(cell);
  }
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
