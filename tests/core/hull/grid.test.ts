import { describe, expect, it } from 'vitest';
import { gridFromCells, gridFromCsv, rowsUnderHeader } from '#core/hull/grid.ts';

const wanted = ['xM', 'zM', 'halfBreadthM'] as const;
const numbers = (text: string) =>
  rowsUnderHeader(gridFromCsv('lines.csv', text), wanted).map((row) =>
    wanted.map((column) => row.number(column)),
  );

describe('a table of cells', () => {
  it('reads comma, semicolon with decimal comma, tab, quotes, byte-order mark and any line ends', () => {
    const expected = [
      [0, 0.5, 1.25],
      [1, 2, 3],
    ];
    expect(numbers('xM,zM,halfBreadthM\n0,0.5,1.25\n1,2,3\n')).toEqual(expected);
    expect(numbers('\uFEFFxM;zM;halfBreadthM\r\n0;0,5;1,25\r\n1;2;3')).toEqual(expected);
    expect(numbers('xM\tzM\thalfBreadthM\n0\t0,5\t"1,25"\n\n1\t2\t3\n')).toEqual(expected);
    expect(numbers('halfBreadthM,xM,zM\n1.25,0,0.5\n3,1,2\n')).toEqual(expected);
    expect(numbers('0,0.5,1.25\n1,2,3\n')).toEqual(expected);
  });

  it('reads the cells of a workbook', () => {
    const grid = gridFromCells('lines.xlsx', [
      ['xM', 'zM', 'halfBreadthM'],
      [0, '0.5', 1.25],
      [null, '', null],
    ]);
    expect(rowsUnderHeader(grid, wanted).map((row) => row.number('zM'))).toEqual([0.5]);
  });

  it('names file, row and column of what is no number', () => {
    expect(() => numbers('xM,zM,halfBreadthM\n0,0,0\n1,NaN,2\n')).toThrow(
      /hull-number.*lines\.csv: row 3, column zM: "NaN"/,
    );
    expect(() => numbers('xM,zM,halfBreadthM\n0,0,\n')).toThrow('row 2, column halfBreadthM');
    expect(() => numbers('xM,zM,halfBreadthM\n0,1e999,0\n')).toThrow('hull-number');
    expect(() => numbers('xM,zM,halfBreadthM\n0,0,0x10\n')).toThrow('hull-number');
  });

  it('refuses columns that are missing, doubled, unknown or without a name', () => {
    expect(() => numbers('xM,zM\n0,0\n')).toThrow('halfBreadthM is missing');
    expect(() => numbers('xM,zM,zM,halfBreadthM\n0,0,0,0\n')).toThrow('zM stands twice');
    expect(() => numbers('xM,zM,halfBreadthM,colour\n0,0,0,red\n')).toThrow('"colour"');
    expect(() => numbers('xM,zM,halfBreadthM\n0,0,0,7\n')).toThrow('hull-columns');
    expect(() => numbers('')).toThrow('input-too-few');
  });

  it('has limits', () => {
    const rows = 'xM,zM,halfBreadthM\n' + '0,0,0\n'.repeat(20_001);
    expect(() => gridFromCsv('lines.csv', rows)).toThrow('input-too-large');
    expect(() => gridFromCsv('lines.csv', ' '.repeat(5_000_000))).toThrow('input-too-large');
  });
});
