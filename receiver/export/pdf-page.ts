import type { ReportDocument } from '#core/report/document.ts';
import type { Tagged } from './pdf-tags.ts';

/** A4, upright; points. */
export const PAGE_SIZE = { width: 595.28, height: 841.89 } as const;
/** Left, top, right, bottom; points. */
export const PAGE_MARGINS = [54, 74, 48, 58] as const;
export const TEXT_WIDTH = PAGE_SIZE.width - PAGE_MARGINS[0] - PAGE_MARGINS[2];

export const INK = '#101418';
export const PENCIL = '#565d66';
export const RULE = '#b9bec4';

/** A node of the library: its own fields and, on what is read, its tag. */
export type PageNode = Readonly<Record<string, unknown>> & Partial<Tagged>;

/** Of the rows that are set bold, and of parts as a whole. */
const CHANGED = 'Changed on this page since the revision before';

/** The band over every page: what the document is, and every mark it is under. */
export function pageHead({ title, subject, marks }: ReportDocument, isChanged: boolean): PageNode {
  const said = isChanged ? [...marks, CHANGED] : marks;
  return {
    stack: [
      {
        columns: [
          { text: title, bold: true, fontSize: 8, width: 'auto' },
          { text: subject, fontSize: 8, color: PENCIL, alignment: 'right', width: '*' },
        ],
        columnGap: 12,
      },
      { canvas: [line(INK, 0.9)], margin: [0, 3, 0, 2] },
      { text: said.join('  ·  '), bold: true, fontSize: 8 },
    ],
    margin: [PAGE_MARGINS[0], 26, PAGE_MARGINS[2], 0],
  };
}

export function pageFoot({ foot }: ReportDocument, page: number, pages: number): PageNode {
  return {
    stack: [
      { canvas: [line(RULE, 0.5)], margin: [0, 0, 0, 4] },
      {
        columns: [
          { text: foot, fontSize: 7, color: PENCIL, width: '*' },
          { text: `Page ${page} of ${pages}`, fontSize: 8, alignment: 'right', width: 80 },
        ],
      },
    ],
    margin: [PAGE_MARGINS[0], 14, PAGE_MARGINS[2], 0],
  };
}

function line(lineColor: string, lineWidth: number): object {
  return { type: 'line', x1: 0, y1: 0, x2: TEXT_WIDTH, y2: 0, lineWidth, lineColor };
}
