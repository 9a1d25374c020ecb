import { describe, expect, it } from 'vitest';
import { hullAmong, jsonOf, NO_FILES, withFiles } from '../../../ui/loading/loading-files.ts';

const file = (name: string, text: string) => ({ name, text });
const loading = file('load.json', '{"heelwrightLoading":1}');
const rules = file('own.json', '{"heelwrightRules":1}');
const table = file('lines.csv', 'xM,zM,halfBreadthM\n0,0,1\n');

describe('files opened on the loading page', () => {
  it('are told apart by what they hold, and stay when more are opened', () => {
    const open = withFiles(NO_FILES, [loading, rules, table]);
    expect(open).toEqual({ loading, rules: [rules], hull: [table] });
    const again = withFiles(open, [file('own.json', '{"heelwrightRules":1,"id":"b"}')]);
    expect(again.loading).toBe(loading);
    expect(again.rules).toHaveLength(1);
    expect(again.hull).toEqual([table]);
    expect(withFiles(open, [file('other.csv', 'xM,yM,zM\n')]).hull.map((one) => one.name)).toEqual([
      'other.csv',
    ]);
  });

  it("have a hull among them, by its table's head, or none", () => {
    expect(hullAmong(withFiles(NO_FILES, [table]))).toMatchObject({
      form: 'offsets',
      file: 'lines.csv',
    });
    expect(hullAmong(withFiles(NO_FILES, [file('p.csv', 'xM,yM,zM\n1,2,3')]))).toMatchObject({
      form: 'points',
    });
    expect(hullAmong(NO_FILES)).toBeNull();
    const named = file('hull.json', '{"name":"Marram","offsets":"lines.csv"}');
    expect(hullAmong(withFiles(NO_FILES, [named, table]))).toMatchObject({ form: 'hull' });
    expect(() => hullAmong(withFiles(NO_FILES, [named]))).toThrow(
      'choose that file together with it',
    );
  });

  it('are refused where they are no JSON, too large, too many or reach into prototypes', () => {
    expect(() => withFiles(NO_FILES, [file('x.json', '{"a":')])).toThrow('input-not-json');
    expect(() => withFiles(NO_FILES, [file('x.csv', 'x'.repeat(4_000_001))])).toThrow(
      'input-too-large',
    );
    const many = Array.from({ length: 13 }, (_, k) => file(`${k}.json`, rules.text));
    expect(() => withFiles(NO_FILES, many)).toThrow('input-too-large');
    expect(() => jsonOf(file('x.json', '{"__proto__":{}}'))).toThrow('input-not-json');
  });
});
