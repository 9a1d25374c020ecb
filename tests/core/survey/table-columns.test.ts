import { describe, expect, it } from 'vitest';
import { type Cell, gridFromCells } from '#core/hull/grid.ts';
import { type ColumnForm, findHeader } from '#core/survey/table-columns.ts';

const forms: ColumnForm[] = [
  { field: 'massT', names: ['mass'], unit: 't', needed: true },
  { field: 'xM', names: ['x', 'centre x'], unit: 'm', needed: true },
  { field: 'note', names: ['note'], unit: 'text', needed: false },
];
const find = (...rows: Cell[][]) => findHeader(gridFromCells('t', rows), forms);

describe('the header of a table', () => {
  it('is found under titles and blank rows, in any order, with units in it', () => {
    const { columns, firstRow } = find(
      ['Survey of 4 May'],
      [null],
      ['Note', 'X [mm]', 'Mass (kg)'],
      ['a', 1, 2],
    );
    expect(firstRow).toBe(3);
    expect(columns.map(({ field, index, per }) => [field, index, per])).toEqual([
      ['massT', 2, 1000],
      ['xM', 1, 1000],
      ['note', 0, 1],
    ]);
  });

  it('takes a row of units under it', () => {
    const { columns, firstRow } = find(['mass', 'x', 'note'], ['t', 'cm', '-'], [1, 2, 'a']);
    expect(firstRow).toBe(2);
    expect(columns.map(({ per }) => per)).toEqual([1, 100, 1]);
  });

  it('joins merged group headings with those under them', () => {
    const { columns } = find([null, 'Centre', null], ['mass', 'x', 'y'], [1, 2, 3]);
    expect(columns.find(({ field }) => field === 'xM')?.index).toBe(1);
  });

  it('refuses what is missing, doubled, or in a unit of another kind', () => {
    expect(() => find(['mass', 'note'], [1, 'a'])).toThrow(/table-columns.*xM/);
    expect(() => find(['mass', 'x', 'x'], [1, 2, 3])).toThrow(/stands twice/);
    expect(() => find(['mass (m)', 'x'], [1, 2])).toThrow(/table-unit/);
    expect(() => find(['mass (stone)', 'x'], [1, 2])).toThrow(/table-unit/);
    expect(() => find(['mass (constructor)', 'x'], [1, 2])).toThrow(/table-unit/);
    expect(() => find()).toThrow(/table-columns/);
  });
});
