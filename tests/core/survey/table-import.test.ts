import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cell, gridFromCells, gridFromCsv } from '#core/hull/grid.ts';
import { previewTable, type TableForm } from '#core/survey/table-import.ts';

const form: TableForm<{ name: string; massT: number }> = {
  columns: [
    { field: 'name', names: ['name'], unit: 'text', needed: true },
    { field: 'massT', names: ['mass'], unit: 't', needed: true },
  ],
  value: ({ name, massT }) =>
    Number(massT) > 0
      ? { taken: { name: String(name), massT: Number(massT) } }
      : { field: 'massT', reason: 'a mass is over zero' },
};
const of = (rows: Cell[][]) =>
  previewTable(gridFromCells('t', [['name', 'mass (kg)'], ...rows]), form);

describe('the rows of a table', () => {
  it('are taken in the wanted unit or refused with row, field and reason; blanks and sums are passed over', () => {
    const { taken, refused, passedOver } = of([
      ['rope', 350],
      [null, null],
      ['winch', 'heavy'],
      ['net', null],
      ['anchor', -2],
      ['Total', 348],
    ]);
    expect(taken).toEqual([{ row: 2, value: { name: 'rope', massT: 0.35 } }]);
    expect(refused).toEqual([
      { row: 4, field: 'massT', reason: '"heavy" is no number' },
      { row: 5, field: 'massT', reason: 'it is empty' },
      { row: 6, field: 'massT', reason: 'a mass is over zero' },
    ]);
    expect(passedOver).toEqual([3, 7]);
  });

  it('read a decimal comma beside semicolons, and refuse what may be a thousand', () => {
    const csv = previewTable(gridFromCsv('t', 'name;mass (t)\r\nrope;1,250\r\nnet;0,35\r\n'), form);
    expect(csv.taken.map(({ value }) => value.massT)).toEqual([1.25, 0.35]);
    const cells = of([
      ['rope', '1,250'],
      ['net', '0,35'],
      ['formula', '#REF!'],
      ['hex', '0x10'],
      ['infinite', '1e999'],
    ]);
    expect(cells.taken.map(({ row }) => row)).toEqual([3]);
    expect(cells.refused.map(({ row }) => row)).toEqual([2, 4, 5, 6]);
    expect(cells.refused[0]?.reason).toContain('thousand or a decimal comma');
  });

  it('are all accounted for, whatever stands in the cells', () => {
    const cell = fc.oneof(fc.string(), fc.double(), fc.boolean(), fc.constant(null));
    fc.assert(
      fc.property(fc.array(fc.array(cell, { maxLength: 4 }), { maxLength: 20 }), (rows) => {
        const { taken, refused, passedOver } = previewTable(
          gridFromCells('t', [['name', 'mass'], ['-', 't'], ...rows]),
          form,
        );
        const seen = [...taken, ...refused].map(({ row }) => row).concat(passedOver);
        expect(seen.toSorted((a, b) => a - b)).toEqual(rows.map((_, k) => k + 3));
        for (const { value } of taken) expect(Number.isFinite(value.massT)).toBe(true);
      }),
    );
  });
});
