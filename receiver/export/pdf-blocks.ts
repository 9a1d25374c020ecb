import type { Block, FigureBlock, TableBlock } from '#core/report/document.ts';
import { INK, type PageNode, PENCIL, RULE, TEXT_WIDTH } from './pdf-page.ts';
import { Tag } from './pdf-tags.ts';

const POINTS_PER_MM = 72 / 25.4;
const FIGURES = { fontSize: 8, lineHeight: 1.15 } as const;

/** From so many columns on they stand closer and smaller. */
const MANY_COLUMNS = 9;
const NARROW = (k: number) => (k === 0 ? 0 : 4);

export function noticeNode(text: string, root: Tag, margin: readonly number[]): PageNode {
  const cell = { text, bold: true, tag: new Tag('P', root), margin: [6, 4, 6, 3] };
  return {
    table: { widths: ['*'], body: [[cell]], dontBreakRows: true },
    layout: {
      hLineWidth: () => 1.2,
      vLineWidth: () => 1.2,
      hLineColor: () => INK,
      vLineColor: () => INK,
    },
    margin: [...margin],
  };
}

export function listNode(items: readonly string[], root: Tag, margin: readonly number[]): PageNode {
  const list = new Tag('L', root);
  return {
    stack: items.map((text) => ({
      columns: [
        { text: '–', width: 10 },
        { text, tag: new Tag('LBody', new Tag('LI', list)), width: '*' },
      ],
      margin: [0, 0, 0, 2],
    })),
    margin: [...margin],
  };
}

export function factsNode(
  { rows, changed = [] }: Extract<Block, { kind: 'facts' }>,
  root: Tag,
  margin: readonly number[],
): PageNode {
  const table = new Tag('Table', root);
  return {
    table: {
      widths: ['34%', '*'],
      dontBreakRows: true,
      body: rows.map(([name, text], k) => {
        const bold = changed.includes(k);
        const row = new Tag('TR', table, {}, bold || table.isChanged);
        return [
          { text: name, color: PENCIL, bold, tag: new Tag('TH', row, { scope: 'Row' }) },
          { text, bold, tag: new Tag('TD', row) },
        ];
      }),
    },
    layout: RULED,
    margin: [...margin],
    fontSize: 8.5,
  };
}

export function tableNode(
  { columns, rows }: TableBlock,
  root: Tag,
  margin: readonly number[],
): PageNode {
  const table = new Tag('Table', root);
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const head = new Tag('TR', table);
  return {
    table: {
      widths: columns.map(({ share }) => `${(100 * share) / shares}%`),
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      body: [
        columns.map(({ head: text, align }) => ({
          text,
          alignment: align,
          bold: true,
          fontSize: 7,
          tag: new Tag('TH', head, { scope: 'Column' }),
        })),
        ...rows.map(({ cells, struck, isChanged = false }) => {
          const row = new Tag('TR', table, {}, isChanged || table.isChanged);
          return cells.map((text, k) => ({
            text,
            alignment: columns[k]?.align ?? 'left',
            tag: new Tag('TD', row),
            ...(isChanged ? { bold: true } : {}),
            ...(struck ? { decoration: 'lineThrough', color: PENCIL } : {}),
          }));
        }),
      ],
    },
    layout: columns.length < MANY_COLUMNS ? HEADED : { ...HEADED, paddingLeft: NARROW },
    margin: [...margin],
    ...(columns.length < MANY_COLUMNS ? FIGURES : { ...FIGURES, fontSize: 7.2 }),
  };
}

export function figureNode(figure: FigureBlock, root: Tag, margin: readonly number[]): PageNode {
  const part = new Tag('Figure', root, { alt: figure.words });
  return {
    stack: [
      {
        svg: figure.svg,
        width: Math.min(figure.widthMm * POINTS_PER_MM, TEXT_WIDTH),
        font: 'text',
        tag: part,
      },
      {
        text: figure.caption,
        tag: new Tag('Caption', root),
        color: PENCIL,
        fontSize: 8,
        margin: [0, 3, 0, 0],
      },
    ],
    unbreakable: true,
    margin: [...margin],
  };
}

const PHOTOGRAPH_WIDTH = 236;

/** Two beside each other. */
export function photographsNode(
  pictures: Extract<Block, { kind: 'photographs' }>['pictures'],
  root: Tag,
  margin: readonly number[],
): PageNode {
  const cell = ({ jpeg, caption }: (typeof pictures)[number]): PageNode => ({
    stack: [
      {
        image: `data:image/jpeg;base64,${jpeg}`,
        fit: [PHOTOGRAPH_WIDTH, PHOTOGRAPH_WIDTH],
        tag: new Tag('Figure', root, { alt: caption }),
      },
      {
        ...{ text: caption, tag: new Tag('Caption', root), color: PENCIL, fontSize: 8 },
        margin: [0, 3, 0, 8],
      },
    ],
    width: PHOTOGRAPH_WIDTH,
  });
  const rows = Array.from({ length: Math.ceil(pictures.length / 2) }, (_, k) =>
    pictures.slice(2 * k, 2 * k + 2),
  );
  return {
    stack: rows.map((row) => ({ columns: row.map(cell), columnGap: 16, unbreakable: true })),
    margin: [...margin],
  };
}

export function inkNode(lines: readonly string[], root: Tag, margin: readonly number[]): PageNode {
  return {
    table: {
      widths: ['34%', '*'],
      dontBreakRows: true,
      body: lines.map((text) => [
        { text, tag: new Tag('P', root), margin: [0, 14, 0, 0], color: PENCIL },
        { text: ' ' },
      ]),
    },
    layout: {
      hLineWidth: (k: number) => (k === 0 ? 0 : 0.7),
      vLineWidth: () => 0,
      hLineColor: () => INK,
      paddingLeft: () => 0,
    },
    margin: [...margin],
  };
}

const RULED = {
  hLineWidth: () => 0.4,
  vLineWidth: () => 0,
  hLineColor: () => RULE,
  paddingLeft: (k: number) => (k === 0 ? 0 : 6),
  paddingRight: () => 2,
  paddingTop: () => 2,
  paddingBottom: () => 1.5,
};

const HEADED = {
  ...RULED,
  hLineWidth: (k: number) => (k < 2 ? 0.9 : 0.4),
  hLineColor: (k: number) => (k < 2 ? INK : RULE),
  paddingLeft: (k: number) => (k === 0 ? 0 : 7),
};
