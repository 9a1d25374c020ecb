import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { immersed } from '#core/hull/hull.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { hullOfFiles } from '#ui/prepare/hull-files.ts';
import { readHull } from '#ui/survey/hull-here.svelte.ts';

const file = (name: string) => ({
  name,
  text: readFileSync(new URL(`../../../device/emulated/${name}`, import.meta.url), 'utf8'),
});
const JSON_FILE = file('marram.json');
const TABLE = file('marram-offsets.csv');
const CERTAIN = { densityKgM3: null, volumeUncertaintyShare: 0, kmUncertaintyM: 0 };

describe('a hull from the files that were chosen', () => {
  it('a hull file with its table put into it displaces what the hull of the two files does', () => {
    const { entered } = hullOfFiles([TABLE, JSON_FILE], 'offsets');
    expect(entered?.form).toBe('hull');
    const { hull } = readHull({ ...entered!, ...CERTAIN });
    const level = { heelRad: 0.1, trimRad: 0.02, levelM: 1.6 };
    expect(immersed(hull!, level)).toEqual(immersed(marramHull(), level));
  });

  it('a hull file without the table it names is refused by that name', () => {
    const { refused } = hullOfFiles([JSON_FILE], 'offsets');
    expect(refused).toMatchObject({ code: 'input-shape', where: 'marram.json: offsets' });
    expect(refused?.found).toContain('marram-offsets.csv');
  });

  it('a list beside them is of spot checks, and refused by its own place', () => {
    const spots = [{ xM: 7.8, depthM: 2.2 }];
    const list = (checks: unknown) => ({ name: 'spots.json', text: JSON.stringify(checks) });
    expect(hullOfFiles([TABLE, list(spots)], 'offsets').entered).toMatchObject({
      form: 'offsets',
      spots,
    });
    expect(hullOfFiles([TABLE, list([{ xM: 7.8, depthM: -2 }])], 'offsets').refused).toMatchObject({
      code: 'input-shape',
      where: 'spots.json: 0.depthM',
    });
  });

  it('a table alone is what it is said to be; two of them are one too many', () => {
    expect(hullOfFiles([TABLE], 'points').entered).toMatchObject({
      form: 'points',
      text: TABLE.text,
      knText: null,
    });
    expect(hullOfFiles([TABLE, { ...TABLE, name: 'b.csv' }], 'offsets').refused?.code).toBe(
      'input-contradiction',
    );
  });

  it('of two tables of hydrostatics the one with KN is KN', () => {
    const hydrostatics = { name: 'h.csv', text: 'draughtM,displacementT,lcbM,kmTransverseM\n' };
    const kn = { name: 'k.csv', text: 'displacementT,heelDeg,knM\n' };
    expect(hullOfFiles([kn, hydrostatics], 'tables').entered).toEqual({
      form: 'tables',
      file: 'h.csv',
      text: hydrostatics.text,
      knText: kn.text,
    });
    expect(hullOfFiles([kn], 'tables').refused?.code).toBe('input-too-few');
  });

  it('what cannot be read is refused with its place', () => {
    expect(hullOfFiles([{ name: 'x.json', text: '{' }], 'offsets').refused?.code).toBe(
      'input-not-json',
    );
    const spoilt = {
      name: 'spoilt.csv',
      text: TABLE.text.replace(/\n([^\n]*),[^,\n]*\n/, '\n$1,x\n'),
    };
    const { entered } = hullOfFiles([spoilt], 'offsets');
    expect(readHull({ ...entered!, ...CERTAIN }).refused).toMatchObject({ code: 'hull-number' });
  });
});
