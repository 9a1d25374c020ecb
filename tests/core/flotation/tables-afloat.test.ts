import { expect, test } from 'vitest';
import { tablesAfloat } from '#core/flotation/tables-afloat.ts';
import { gridFromCsv } from '#core/hull/grid.ts';
import { hydrostaticTablesFromGrid, knTableFromGrid } from '#core/hull/tables.ts';
import { BOX } from '#tests/core/reduction/closed-hulls.ts';
import { BOX_KN_CSV, BOX_TABLE_CSV } from '#tests/support/box-files.ts';

const tables = (text: string) =>
  hydrostaticTablesFromGrid(gridFromCsv('box', text), { densityKgM3: 1025, lengthM: 20 });
const kn = knTableFromGrid(gridFromCsv('kn', BOX_KN_CSV));
const LEVEL = { middleM: 1.5, trimSlope: 0, heelSlope: 0, sagM: 0 };

// L 20, B 6: volume 120 T, KB T/2, BM 3/T, BM longitudinal 400/12/T.
test('the box by its table: volume, centres, both metacentres, KN and c2', () => {
  const box = tablesAfloat(tables(BOX_TABLE_CSV), kn);
  const found = box.immersionOf(LEVEL);
  expect(found.volumeM3).toBeCloseTo(180, 4);
  expect(found.kmM).toBeCloseTo(2.75, 4);
  expect(found.kmLongitudinalM!).toBeCloseTo(0.75 + 400 / 12 / 1.5, 2);
  expect(found.metacentreMovementM()!).toBeCloseTo(1, 1);
  expect(box.knOf!(180, 0)(0.05)).toBeCloseTo(BOX.kn(0.05), 5);
});

test('hog counts three quarters in the draught', () => {
  const box = tablesAfloat(tables(BOX_TABLE_CSV), null);
  expect(box.immersionOf({ ...LEVEL, sagM: -0.04 }).volumeM3).toBeCloseTo(120 * 1.47, 4);
  expect([box.knOf, box.immersionOf(LEVEL).metacentreMovementM()]).toEqual([null, null]);
});

test('beyond the table nothing is told, and without kbM nothing floats', () => {
  const box = tablesAfloat(tables(BOX_TABLE_CSV), null);
  expect(() => box.immersionOf({ ...LEVEL, middleM: 2.5 })).toThrow(/tables-outside/);
  expect(() => box.immersionOf({ ...LEVEL, trimSlope: 0.03 })).toThrow(/tables-outside/);
  const bare = BOX_TABLE_CSV.split('\n')
    .map((row) => row.split(',').slice(0, 4).join(','))
    .join('\n');
  expect(() => tablesAfloat(tables(bare), null).immersionOf(LEVEL)).toThrow(/kbM/);
});
