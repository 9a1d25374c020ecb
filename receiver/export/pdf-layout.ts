import type { Block, ReportDocument } from '#core/report/document.ts';
import {
  factsNode,
  figureNode,
  inkNode,
  listNode,
  noticeNode,
  photographsNode,
  tableNode,
} from './pdf-blocks.ts';
import { INK, type PageNode, PENCIL, TEXT_WIDTH } from './pdf-page.ts';
import { Tag } from './pdf-tags.ts';

export const BODY_STYLE = { font: 'text', fontSize: 9, lineHeight: 1.22, color: INK } as const;

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
  whole: Tag,
  pulledUp: number,
): PageNode {
  const root = block.isChanged === true ? new Tag('Div', whole, {}, true) : whole;
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
      return factsNode(block, root, margin(0, 7));
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
