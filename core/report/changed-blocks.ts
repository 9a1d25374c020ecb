import type { Block } from './document.ts';

/**
 * The blocks of a document with everything marked that does not stand so in the revision before it:
 * rows of tables and of names one by one, other blocks whole. What only stood before is not marked;
 * a table that lost a row is, in its head.
 */
export function markChanged(blocks: readonly Block[], earlier: readonly Block[]): Block[] {
  const before = sectioned(earlier);
  return sectioned(blocks).map(({ section, block }) => {
    if (block.kind === 'page' || block.kind === 'heading' || block.kind === 'title') return block;
    const there = before.filter((one) => one.section === section).map((one) => one.block);
    if (block.kind === 'table') return changedTable(block, there);
    if (block.kind === 'facts') {
      const rows = new Set(
        there.flatMap((one) => (one.kind === 'facts' ? one.rows : [])).map(text),
      );
      const changed = block.rows.flatMap((row, k) => (rows.has(text(row)) ? [] : [k]));
      return changed.length === 0 ? block : { ...block, changed };
    }
    return there.some((one) => text(one) === text(block)) ? block : { ...block, isChanged: true };
  });
}

function changedTable(
  block: Extract<Block, { kind: 'table' }>,
  there: readonly Block[],
): Extract<Block, { kind: 'table' }> {
  const rows = new Set(
    there.flatMap((one) => (one.kind === 'table' ? one.rows : [])).map(({ cells }) => text(cells)),
  );
  const like = there.find(
    (one) => one.kind === 'table' && text(one.columns) === text(block.columns),
  );
  const lost = like?.kind === 'table' && like.rows.length > block.rows.length;
  return {
    ...block,
    ...(lost ? { isChanged: true } : {}),
    rows: block.rows.map((row) => (rows.has(text(row.cells)) ? row : { ...row, isChanged: true })),
  };
}

const text = (value: unknown) => JSON.stringify(value);

/** Each block with the headings it stands under. */
function sectioned(blocks: readonly Block[]): { section: string; block: Block }[] {
  let first = '';
  let second = '';
  return blocks.map((block) => {
    if (block.kind === 'heading' && block.level === 1) [first, second] = [block.text, ''];
    else if (block.kind === 'heading') second = block.text;
    return { section: `${first}\n${second}`, block };
  });
}
