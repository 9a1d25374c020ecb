import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { csvTable } from '#core/report/csv.ts';

describe('a table as CSV', () => {
  it('is read back by a general parser field for field, numbers to the last digit', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.string(), fc.double({ noNaN: true, noDefaultInfinity: true }))),
        (rows) => {
          const { data } = Papa.parse<string[]>(csvTable(['text', 'number'], rows).trimEnd(), {
            newline: '\r\n',
          });
          data.slice(1).forEach(([text, number], k) => {
            const [said, value] = rows[k]!;
            expect(text!.replace(/^'(?=[=+\-@\t\r])/, '')).toBe(said);
            expect(Object.is(Number(number), value) || value === 0).toBe(true);
          });
          expect(data.length).toBe(rows.length + 1);
        },
      ),
    );
  });

  it('marks text that a spreadsheet would run, and never a number', () => {
    const lines = csvTable(
      ['a', 'b'],
      [
        ["=cmd|' /C calc'!A0", -1.5],
        ['@SUM(1)', -0.000001],
        ['-tight', 3e21],
      ],
    ).split('\r\n');
    expect(lines.slice(1, 4)).toEqual([
      "'=cmd|' /C calc'!A0,-1.5",
      "'@SUM(1),-0.000001",
      "'-tight,3e+21",
    ]);
  });

  it('refuses a row of another length and what is no number', () => {
    expect(() => csvTable(['a'], [['x', 'y']])).toThrow(RangeError);
    expect(() => csvTable(['a'], [[Number.NaN]])).toThrow(RangeError);
  });
});
