import { describe, expect, it } from 'vitest';
import { gridFromCsv } from '#core/hull/grid.ts';
import { offsetsFromGrid } from '#core/hull/offsets.ts';

const HEADER = 'xM,zM,halfBreadthM\n';
const box = (x: number) => `${x},0,0\n${x},0,3\n${x},3,3\n`;
const barge = (from = 0) => [0, 5, 10, 15, 20].map((x) => box(from + x)).join('');
const read = (rows: string, header = HEADER) =>
  offsetsFromGrid(gridFromCsv('lines.csv', header + rows));

describe('the table of offsets', () => {
  it('gathers sections by x, in any order of sections, with the rows they stand in', () => {
    const table = read(box(20) + box(5) + box(10) + box(15) + box(0));
    expect(table.stations.map((station) => station.xM)).toEqual([0, 5, 10, 15, 20]);
    expect(table.stations[0]!.points[1]).toEqual({
      yM: 3,
      zM: 0,
      knuckle: false,
      where: 'lines.csv: row 15, column halfBreadthM',
    });
  });

  it('takes a table written by waterlines as well', () => {
    const rows = [0, 1, 2]
      .flatMap((z) => [0, 4, 8, 12, 16].map((x) => `${x},${z},${z === 0 ? 0 : 2}`))
      .join('\n');
    expect(read(rows).stations.map((station) => station.points.length)).toEqual([3, 3, 3, 3, 3]);
  });

  it('reads a marked knuckle', () => {
    const rows = [0, 5, 10, 15, 20].map((x) => `${x},0,0,0\n${x},0.4,2.9,1\n${x},3,3,\n`).join('');
    const table = read(rows, 'xM,zM,halfBreadthM,knuckle\n');
    expect(table.stations[2]!.points.map((point) => point.knuckle)).toEqual([false, true, false]);
    expect(() => read('0,0,0,perhaps\n', 'xM,zM,halfBreadthM,knuckle\n')).toThrow('hull-number');
  });

  it('keeps both faces of a step, and points of the keel line apart', () => {
    const step = '10,0,0\n10,0,3\n10,3,3\n10,0.5,0\n10,0.5,3\n10,3,3\n';
    const table = read(box(0) + box(5) + step + '12.5,0.1,0\n' + box(15) + box(20));
    expect(table.stations.map((station) => station.xM)).toEqual([0, 5, 10, 10, 15, 20]);
    expect(table.keelLine).toEqual([{ xM: 12.5, zM: 0.1 }]);
  });

  it('refuses fewer than five stations', () => {
    expect(() => read(box(0) + box(5) + box(10) + box(15))).toThrow('hull-few-stations');
  });

  it('refuses millimetres, in all columns or in one', () => {
    const inMillimetres = [0, 5000, 10000, 15000, 20000].map(
      (x) => `${x},0,0\n${x},0,3000\n${x},3000,3000\n`,
    );
    expect(() => read(inMillimetres.join(''))).toThrow(/hull-millimetres.*row/);
    const oneColumn = [0, 5, 10, 15, 20].map((x) => `${x},0,0\n${x},0,300\n${x},3,300\n`).join('');
    expect(() => read(oneColumn)).toThrow(/hull-millimetres.*row 3, column halfBreadthM/);
  });

  it('refuses a point alone off the centre plane, and too many points', () => {
    expect(() => read(`${barge()}25,1,2\n`)).toThrow('hull-offsets');
    const many = Array.from({ length: 401 }, (_, k) => `0,${k / 400},${k / 200}\n`).join('');
    expect(() => read(many + barge().slice(box(0).length))).toThrow('input-too-large');
  });
});
