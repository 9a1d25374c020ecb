import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { sampleTableFromText } from '#core/sample/sample-table.ts';

function codeAndPlace(text: string): [string, string] {
  try {
    sampleTableFromText(text);
  } catch (error) {
    if (error instanceof Fault) return [error.code, error.report.where];
    throw error;
  }
  throw new Error('was taken');
}

describe('table of samples', () => {
  it('reads the same from comma, semicolon with decimal comma, and tab, with a header or none', () => {
    const wanted = [0, 0.02];
    for (const text of [
      'timeS,heelDeg\n0,1.25\n0.02,-1.5e-1\n',
      'timeS;heelDeg\r\n0;1,25\r\n0,02;-0,15',
      '0\t1,25\n0,02\t-0.15',
      '\uFEFFtimeS;heelDeg\n0;1.25\n0.02;-.15\n\n',
    ]) {
      const table = sampleTableFromText(text);
      expect(table.timeS).toEqual(wanted);
      expect(table.columns[0]!.values).toEqual([1.25, -0.15]);
    }
  });

  it('takes more columns by their names, and an empty field for a missing value', () => {
    const table = sampleTableFromText('timeS,fore,aft\n0,1,\n1,,2\n');
    expect(table.columns).toEqual([
      { name: 'fore', values: [1, null] },
      { name: 'aft', values: [null, 2] },
    ]);
    expect(sampleTableFromText('0,1,2\n1,3,4').columns.map(({ name }) => name)).toEqual([
      'column 2',
      'column 3',
    ]);
  });

  it('names the row and column of what is wrong', () => {
    expect(codeAndPlace('timeS,heelDeg\n0,1\n1,x')).toEqual(['table-field', 'line 3, column 2']);
    expect(codeAndPlace('0,1\nNaN,2')).toEqual(['table-field', 'line 2, column 1']);
    expect(codeAndPlace('0,1\n,2')).toEqual(['table-field', 'line 2, column 1']);
    expect(codeAndPlace('0,1\n1,1e999')).toEqual(['table-field', 'line 2, column 2']);
    expect(codeAndPlace('0,1\n1,2,3')).toEqual(['table-columns', 'line 2']);
    expect(codeAndPlace('5\n6')).toEqual(['table-columns', 'line 1']);
    expect(codeAndPlace('timeS,heelDeg\n0,1')).toEqual(['input-too-few', 'table']);
    expect(codeAndPlace('')).toEqual(['input-too-few', 'table']);
    expect(codeAndPlace(`t${',h'.repeat(20)}`)).toEqual(['input-too-large', 'line 1']);
  });
});
