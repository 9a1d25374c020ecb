import type { Block, TableBlock } from './document.ts';

/** Short ways to write the blocks of a document. */

export function heading(level: 1 | 2, text: string): Block {
  return { kind: 'heading', level, text };
}

export function paragraph(text: string): Block {
  return { kind: 'paragraph', text };
}

export function note(text: string): Block {
  return { kind: 'note', text };
}

export function facts(rows: readonly (readonly [string, string])[]): Block {
  return { kind: 'facts', rows };
}

/** A list, or one sentence where it is empty. */
export function listOr(items: readonly string[], empty: string): Block {
  return items.length === 0 ? paragraph(empty) : { kind: 'list', items };
}

/** Head and width of a column; a figure stands at the right. */
export type Column = readonly [head: string, share: number, align?: 'right'];
export type Row =
  | readonly string[]
  | { readonly cells: readonly string[]; readonly struck: boolean };

/** A table, or one sentence where it has no row. RangeError for a row of another length. */
export function tableOr(columns: readonly Column[], rows: readonly Row[], empty: string): Block {
  return rows.length === 0 ? paragraph(empty) : table(columns, rows);
}

export function table(columns: readonly Column[], rows: readonly Row[]): TableBlock {
  return {
    kind: 'table',
    columns: columns.map(([head, share, align]) => ({ head, share, align: align ?? 'left' })),
    rows: rows.map((row, k) => {
      const written = 'cells' in row ? row : { cells: row };
      if (written.cells.length !== columns.length)
        throw new RangeError(`row ${k} has ${written.cells.length} cells of ${columns.length}`);
      return written;
    }),
  };
}
