import { expect, it } from 'vitest';
import { facts, heading, note, paragraph, table } from '#core/report/blocks.ts';
import { markChanged } from '#core/report/changed-blocks.ts';
import type { Block } from '#core/report/document.ts';

const booklet = (kg: string, more: readonly string[][] = []): Block[] => [
  heading(1, 'Arrival'),
  table(
    [
      ['what', 1],
      ['m', 1],
    ],
    [['KG', kg], ['GM', '0.95'], ...more],
  ),
  facts([
    ['draught', '1.40'],
    ['trim', '0.1'],
  ]),
  heading(1, 'Departure'),
  table(
    [
      ['what', 1],
      ['m', 1],
    ],
    [['KG', '2.21']],
  ),
  paragraph('Keep the hatch shut.'),
  note('n'),
  { kind: 'page' },
];

it('marks nothing of a booklet that stands as it stood', () => {
  expect(JSON.stringify(markChanged(booklet('2.30'), booklet('2.30')))).not.toMatch(/true|changed/);
});

it('marks the row that changed and no other', () => {
  const [, changed, , , other] = markChanged(booklet('2.31'), booklet('2.30'));
  expect(
    changed?.kind === 'table' && changed.rows.map(({ isChanged }) => isChanged ?? false),
  ).toEqual([true, false]);
  expect(other?.kind === 'table' && other.rows.every(({ isChanged }) => isChanged !== true)).toBe(
    true,
  );
});

it('does not take a row for unchanged because another condition has it', () => {
  const [, changed] = markChanged(booklet('2.21'), booklet('2.30'));
  expect(changed?.kind === 'table' && changed.rows[0]?.isChanged).toBe(true);
});

it('marks a table that lost a row, names that changed, and other parts as a whole', () => {
  const before = booklet('2.30', [['gone', '1']]);
  const [, lost] = markChanged(booklet('2.30'), before);
  expect(lost?.isChanged).toBe(true);
  const after = booklet('2.30').map((block) =>
    block.kind === 'facts'
      ? facts([
          ['draught', '1.41'],
          ['trim', '0.1'],
        ])
      : block.kind === 'paragraph'
        ? paragraph('Keep the hatch open.')
        : block,
  );
  const marked = markChanged(after, booklet('2.30'));
  expect(marked[2]).toMatchObject({ changed: [0] });
  expect(marked[5]?.isChanged).toBe(true);
  expect(marked[6]?.isChanged).toBeUndefined();
});
