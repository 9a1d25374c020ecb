import { expect, it } from 'vitest';
import { facts, heading, listOr, note, paragraph, table, tableOr } from '#core/report/blocks.ts';

it('says in a sentence that there is nothing, instead of an empty table or list', () => {
  expect(tableOr([['a', 1]], [], 'None.')).toEqual(paragraph('None.'));
  expect(listOr([], 'None.')).toEqual(paragraph('None.'));
  expect(listOr(['one'], 'None.')).toEqual({ kind: 'list', items: ['one'] });
});

it('puts figures at the right and strikes what is no longer in force', () => {
  expect(
    table(
      [
        ['a', 2],
        ['b', 1, 'right'],
      ],
      [['1', '2'], { cells: ['3', '4'], struck: true }],
    ),
  ).toEqual({
    kind: 'table',
    columns: [
      { head: 'a', share: 2, align: 'left' },
      { head: 'b', share: 1, align: 'right' },
    ],
    rows: [{ cells: ['1', '2'] }, { cells: ['3', '4'], struck: true }],
  });
});

it('takes no row of another length', () => {
  expect(() => table([['a', 1]], [['1', '2']])).toThrow(RangeError);
});

it('writes the other blocks', () => {
  expect([heading(1, 'h'), note('n'), facts([['a', 'b']])].map(({ kind }) => kind)).toEqual([
    'heading',
    'note',
    'facts',
  ]);
});
