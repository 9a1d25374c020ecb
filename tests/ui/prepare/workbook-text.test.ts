import { expect, it } from 'vitest';
import { gridFromCsv } from '#core/hull/grid.ts';
import { csvOfRows } from '#ui/prepare/workbook-text.ts';

it('keeps every digit, every row and every column where it was', () => {
  const third = 1 / 3;
  const rows = [
    ['xM', 'zM', 'halfBreadthM'],
    [0, third, 1e-7],
    [null, null, null],
    ['a, "b"', true, new Date(Date.UTC(2026, 4, 4))],
  ];
  const grid = gridFromCsv('lines.xlsx', csvOfRows(rows));
  expect(grid.rows[1]?.map(Number)).toEqual([0, third, 1e-7]);
  expect(grid.rows[2]).toEqual(['', '', '']);
  expect(grid.rows[3]).toEqual(['a, "b"', 'true', '2026-05-04T00:00:00.000Z']);
});
