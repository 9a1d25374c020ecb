import type { Block, FigureBlock, ReportDocument, TableBlock } from '#core/report/document.ts';
import { INK, type PageNode, PENCIL, RULE, TEXT_WIDTH } from './pdf-page.ts';
import { Tag } from './pdf-tags.ts';

const POINTS_PER_MM = 72 / 25.4;

export const BODY_STYLE = { font: 'text', fontSize: 9, lineHeight: 1.22, color: INK } as const;
const FIGURES = { fontSize: 8, lineHeight: 1.15 } as const;

/** From so many columns on they stand closer and smaller. */
const MANY_COLUMNS = 9;
const NARROW = (k: number) => (k === 0 ? 0 : 4);

/** A table or list of names of so many rows at most stays on one page with its heading. */
const MOST_KEPT_ROWS = 9;
const ROW_POINTS = 15;
const LETTER_POINTS = 3.9;

/** The nodes of a document's blocks, in their order; `root` is the tag everything hangs on. */
export function pageNodes(document: ReportDocument, root: Tag): PageNode[] {
  const nodes: PageNode[] = [];
  let heads: PageNode[] = [];
  let afterPage = false;
  const push = (node: PageNode) => {
    nodes.push(afterPage ? { ...node, pageBreak: 'before' } : node);
    afterPage = false;
  };
  for (const block of document.blocks) {
    if (block.kind === 'page') {
      for (const head of heads) push(head);
      heads = [];
      afterPage = true;
    } else if (block.kind === 'heading') heads.push(headingNode(block, root));
    else if (heads.length === 0) push(blockNode(block, root, 0));
    else {
      const keeps = keptUnder(block);
      if (keeps === null) push({ stack: [...heads, blockNode(block, root, 0)], unbreakable: true });
      else {
        push({ stack: [...heads, spaceNode(keeps)], unbreakable: true });
        push(blockNode(block, root, keeps));
      }
      heads = [];
    }
  }
  for (const head of heads) push(head);
  // a margin under the last one may need a page of its own
  return nodes.map((node, k) => {
    const [left, top, right] = (node['margin'] ?? []) as number[];
    return k < nodes.length - 1 || left === undefined
      ? node
      : { ...node, margin: [left, top, right, 0] };
  });
}

/** Points that must be left under a heading for what may break; null: it does not, and goes with it. */
function keptUnder(block: Block): number | null {
  if (block.kind === 'facts') return block.rows.length <= MOST_KEPT_ROWS ? null : 3 * ROW_POINTS;
  if (block.kind === 'list') return block.items.length <= MOST_KEPT_ROWS ? null : 3 * ROW_POINTS;
  if (block.kind !== 'table') return null;
  if (block.rows.length <= MOST_KEPT_ROWS) return null;
  const shares = block.columns.reduce((sum, { share }) => sum + share, 0);
  const lines = Math.max(
    ...(block.rows[0]?.cells ?? ['']).map((text, k) =>
      Math.ceil(
        (text.length * LETTER_POINTS * shares) / ((block.columns[k]?.share ?? 1) * TEXT_WIDTH),
      ),
    ),
  );
  return (2 + lines) * ROW_POINTS;
}

function spaceNode(points: number): PageNode {
  return { text: ' ', fontSize: 1, lineHeight: 1, margin: [0, points - 1.17, 0, 0] };
}

function blockNode(
  block: Exclude<Block, { kind: 'page' | 'heading' }>,
  root: Tag,
  pulledUp: number,
): PageNode {
  const margin = (top: number, bottom: number) => [0, top - pulledUp, 0, bottom];
  const words = (text: string, style: object): PageNode => ({
    text,
    tag: new Tag('P', root),
    ...style,
  });
  switch (block.kind) {
    case 'title':
      return words(block.text, {
        bold: true,
        fontSize: 19,
        margin: margin(4, 10),
        lineHeight: 1.1,
      });
    case 'paragraph':
      return words(block.text, { margin: margin(0, 5) });
    case 'note':
      return words(block.text, { margin: margin(0, 6), color: PENCIL, fontSize: 8 });
    case 'exact':
      return words(block.text, { font: 'exact', fontSize: 8, margin: margin(0, 5) });
    case 'notice':
      return noticeNode(block.text, root, margin(2, 8));
    case 'list':
      return listNode(block.items, root, margin(0, 5));
    case 'facts':
      return factsNode(block.rows, root, margin(0, 7));
    case 'table':
      return tableNode(block, root, margin(2, 9));
    case 'figure':
      return figureNode(block, root, margin(2, 9));
    case 'photographs':
      return photographsNode(block.pictures, root, margin(2, 9));
    case 'ink':
      return inkNode(block.lines, root, margin(6, 8));
  }
}

function headingNode({ level, text }: Extract<Block, { kind: 'heading' }>, root: Tag): PageNode {
  return {
    text,
    tag: new Tag(level === 1 ? 'H1' : 'H2', root),
    bold: true,
    fontSize: level === 1 ? 13 : 10,
    margin: [0, level === 1 ? 14 : 8, 0, level === 1 ? 5 : 3],
    ...(level === 1 ? { outline: true } : {}),
  };
}

function noticeNode(text: string, root: Tag, margin: readonly number[]): PageNode {
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

function listNode(items: readonly string[], root: Tag, margin: readonly number[]): PageNode {
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

function factsNode(
  rows: readonly (readonly [string, string])[],
  root: Tag,
  margin: readonly number[],
): PageNode {
  const table = new Tag('Table', root);
  return {
    table: {
      widths: ['34%', '*'],
      dontBreakRows: true,
      body: rows.map(([name, text]) => {
        const row = new Tag('TR', table);
        return [
          { text: name, color: PENCIL, tag: new Tag('TH', row, { scope: 'Row' }) },
          { text, tag: new Tag('TD', row) },
        ];
      }),
    },
    layout: RULED,
    margin: [...margin],
    fontSize: 8.5,
  };
}

function tableNode({ columns, rows }: TableBlock, root: Tag, margin: readonly number[]): PageNode {
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
        ...rows.map(({ cells, struck }) => {
          const row = new Tag('TR', table);
          return cells.map((text, k) => ({
            text,
            alignment: columns[k]?.align ?? 'left',
            tag: new Tag('TD', row),
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

function figureNode(figure: FigureBlock, root: Tag, margin: readonly number[]): PageNode {
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
function photographsNode(
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

function inkNode(lines: readonly string[], root: Tag, margin: readonly number[]): PageNode {
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
