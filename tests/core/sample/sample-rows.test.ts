import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { SampleRows } from '#core/sample/sample-rows.ts';

interface Taken {
  names: readonly string[];
  rows: { timeS: number; values: readonly (number | null)[]; line: number }[];
}

function taken(pieces: readonly string[]): Taken {
  const all: Taken = { names: [], rows: [] };
  const rows = new SampleRows({
    columns: (names) => {
      all.names = names;
    },
    row: (timeS, values, line) => all.rows.push({ timeS, values, line }),
  });
  for (const piece of pieces) rows.push(piece);
  rows.finish();
  return all;
}

function fault(text: string): [string, string] {
  try {
    taken([text]);
  } catch (error) {
    if (error instanceof Fault) return [error.code, error.report.where];
    throw error;
  }
  throw new Error('was taken');
}

describe('rows of samples', () => {
  const text =
    '\uFEFF# logger of the forepeak\r\n\r\ntime;"fore;1";aft\r\ns;deg;rad\r\n% begins\r\n0,0;1,5;0\r\n\r\n0,1;;-1e-1\r\n0,2;-,5;0\r\n';

  it('may come with a mark, comments, blank lines, units and decimal commas', () => {
    const { names, rows } = taken([text]);
    expect(names).toEqual(['fore;1', 'aft']);
    expect(rows.map(({ timeS, line }) => [timeS, line])).toEqual([
      [0, 6],
      [0.1, 8],
      [0.2, 9],
    ]);
    expect(rows.map(({ values }) => values[0])).toEqual([1.5, null, -0.5]);
    expect(rows[1]!.values[1]).toBeCloseTo(-5.729577951308232, 12);
  });

  it('are the same however the text is cut', () => {
    const whole = taken([text]);
    fc.assert(
      fc.property(fc.array(fc.nat(text.length), { maxLength: 12 }), (cuts) => {
        const at = [0, ...cuts.sort((a, b) => a - b), text.length];
        expect(taken(at.slice(1).map((end, k) => text.slice(at[k], end)))).toEqual(whole);
      }),
    );
  });

  it('are refused by code, line and column', () => {
    expect(fault('t,h\ns,deg\nx,y\n0,1\n')).toEqual(['table-field', 'line 3, column 1']);
    expect(fault('t,h\n0,1\n# good\n\n1,2;3\n')).toEqual(['table-field', 'line 5, column 2']);
    expect(fault('t,h\n0,1\n1,"2\n')).toEqual(['table-field', 'line 3, column 1']);
    expect(fault('t,h (mm)\n0,1\n1,2\n')).toEqual(['table-unit', 'line 2, column 2']);
    expect(fault('t,h\n0,1,\n')).toEqual(['table-columns', 'line 2']);
    // decimal commas between commas: the first column is whole seconds, again and again
    expect(fault('0,00,1,25\n0,10,1,26\n0,20,1,27\n')).toEqual(['table-time', 'column 1']);
    expect(fault('only words\n')).toEqual(['table-columns', 'line 1']);
    expect(fault('t,h\n')).toEqual(['input-too-few', 'table']);
    expect(fault(`0,1\n${'9'.repeat(5000)}`)).toEqual(['input-too-large', 'line 2']);
    expect(fault(`0,1\n1,2\n${'x'.repeat(300_000)}`)).toEqual(['input-too-large', 'line 3']);
  });

  it('of any text are taken or refused by a fault, never otherwise', () => {
    const piece = fc.constantFrom(
      '0',
      '1.5',
      ',',
      ';',
      '\t',
      '\n',
      '\r',
      '"',
      '#',
      ' ',
      't',
      '-',
      'e9',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 60 }), (pieces) => {
        try {
          const { rows, names } = taken([pieces.join('')]);
          for (const { values } of rows) expect(values).toHaveLength(names.length);
        } catch (error) {
          expect(error).toBeInstanceOf(Fault);
        }
      }),
    );
  });
});
