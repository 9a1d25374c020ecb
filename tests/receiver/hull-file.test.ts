import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import { immersed } from '#core/hull/hull.ts';
import { waterlineAtDraught } from '#core/hull/waterline.ts';
import { gridFromFile, hullFromFile } from '#receiver/hull-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'hull-file-'));
afterAll(() => rmSync(folder, { recursive: true }));
const rows: (string | number)[][] = [
  ['xM', 'zM', 'halfBreadthM'],
  ...[0, 5, 10, 15, 20].flatMap((x) => [
    [x, 0, 0],
    [x, 0, 3],
    [x, 3, 3],
  ]),
];
const put = (name: string, text: string) => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const csv = put('box.csv', rows.map((row) => row.join(',')).join('\n'));
const volumeOf = async (path: string) =>
  immersed(await hullFromFile(path), waterlineAtDraught(1.5)).volumeM3;

describe('a hull from a file', () => {
  it('is the same from CSV, from CSV with decimal commas and from a workbook', async () => {
    expect(await volumeOf(csv)).toBeCloseTo(180, 9);
    const commas = rows.map((row) => row.join(';').replaceAll('.', ',')).join('\r\n');
    expect(await volumeOf(put('commas.csv', commas))).toBeCloseTo(180, 9);
    const workbook = join(folder, 'box.xlsx');
    const cells = rows.map((row) => row.map((value) => ({ value })));
    await writeXlsxFile(cells).toFile(workbook);
    expect(await volumeOf(workbook)).toBeCloseTo(180, 9);
    expect((await gridFromFile(workbook)).rows).toEqual(rows);
  });

  it('has its table of offsets beside its hull file, or inside', async () => {
    const parts = { name: 'box', offsetsAre: 'moulded', shellThicknessM: 0.01 };
    const beside = put('box.json', JSON.stringify({ ...parts, offsets: 'box.csv' }));
    expect(await volumeOf(beside)).toBeCloseTo(20 * 6.02 * 1.51, 8);
    const sections = [0, 5, 10, 15, 20].map((xM) => ({
      xM,
      points: [
        { zM: 0, halfBreadthM: 3 },
        { zM: 3, halfBreadthM: 3 },
      ],
    }));
    const inside = put('inside.json', JSON.stringify({ ...parts, offsets: sections }));
    expect(await volumeOf(inside)).toBeCloseTo(20 * 6.02 * 1.51, 8);
  });

  it('looks into no other folder, and names what it cannot read', async () => {
    const parts = { name: 'box', offsetsAre: 'outside' };
    const out = put('out.json', JSON.stringify({ ...parts, offsets: '../box.csv' }));
    await expect(hullFromFile(out)).rejects.toThrow('input-shape');
    await expect(hullFromFile(put('bad.json', '{'))).rejects.toThrow('input-not-json');
    const colour = put('colour.json', JSON.stringify({ ...parts, offsets: 'box.csv', colour: 1 }));
    await expect(hullFromFile(colour)).rejects.toThrow('input-shape');
    await expect(hullFromFile(join(folder, 'none.csv'))).rejects.toThrow('file-not-readable');
    await expect(hullFromFile(put('text.xlsx', 'no workbook'))).rejects.toThrow(
      'file-not-readable',
    );
    await expect(
      hullFromFile(put('few.csv', 'xM,zM,halfBreadthM\n0,0,1\n0,1,1\n')),
    ).rejects.toThrow('hull-');
    await expect(hullFromFile(put('large.csv', 'x'.repeat(4_200_000)))).rejects.toThrow(
      'input-too-large',
    );
  });
});
