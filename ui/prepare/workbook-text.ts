import Papa from 'papaparse';
import { checkWorkbookSizes } from '#core/hull/workbook-sizes.ts';
import type { TextFile } from './hull-files.ts';

/** A cell as the reader of workbooks gives it. */
type Cell = string | number | boolean | Date | null;

/** Rows as CSV: each number with all its digits, each row where it was, so that a fault names it rightly. */
export function csvOfRows(rows: readonly (readonly Cell[])[]): string {
  const plain = rows.map((row) =>
    row.map((cell) => (cell instanceof Date ? cell.toISOString() : cell === null ? '' : cell)),
  );
  return Papa.unparse(plain, { newline: '\n' });
}

/** The first sheet of a workbook as the text of a table. Throws `input-too-large`, `file-not-readable`, and what the reader throws. */
async function tableOfWorkbook(file: File): Promise<TextFile> {
  checkWorkbookSizes(file.name, new Uint8Array(await file.arrayBuffer()));
  // Only who opens a workbook needs its reader.
  const { readSheet } = await import('read-excel-file/browser');
  return { name: file.name, text: csvOfRows((await readSheet(file)) as Cell[][]) };
}

/** A chosen file as text, a workbook by its first sheet. */
export async function textOfFile(file: File): Promise<TextFile> {
  if (/\.xlsx$/i.test(file.name)) return tableOfWorkbook(file);
  return { name: file.name, text: await file.text() };
}
