import { expect, test } from 'vitest';
import { hullAfloat, hullAfloatOf, waterlineOfSurface } from '#core/flotation/hull-afloat.ts';
import { waterHeightM } from '#core/flotation/water-surface.ts';
import { gridFromCsv } from '#core/hull/grid.ts';
import { hullFromOffsets } from '#core/hull/make-hull.ts';
import { offsetsFromGrid } from '#core/hull/offsets.ts';
import { draughtAtM } from '#core/hull/waterline.ts';
import { BOX_HULL, BOX_LENGTH_M } from '#tests/core/flotation/box-hull.ts';
import { BOX } from '#tests/core/reduction/closed-hulls.ts';
import { BOX_OFFSETS_CSV } from '#tests/support/box-files.ts';

const box = hullAfloat(BOX_HULL, BOX_LENGTH_M);
const LEVEL = { middleM: 1.5, trimSlope: 0, heelSlope: 0, sagM: 0 };

test('a surface and the plane it is handed on as stand alike everywhere', () => {
  const surface = { ...LEVEL, trimSlope: 0.03, heelSlope: -0.06 };
  const waterline = waterlineOfSurface(surface, 16);
  for (const [x, y] of [
    [0, 0],
    [16, 2],
    [5, -2],
  ] as const) {
    expect(draughtAtM(waterline, x, y)).toBeCloseTo(waterHeightM(surface, 16, x, y), 12);
  }
});

// L 20, B 6, T 1.5 m: 180 m3, KB .75, BM 2, c2 = BM / 2.
test('the box upright, its KN at any heel', () => {
  const found = box.immersionOf(LEVEL);
  expect(found.volumeM3).toBeCloseTo(180, 9);
  expect(found.kmM).toBeCloseTo(2.75, 9);
  expect(found.kmLongitudinalM).toBeCloseTo(0.75 + 400 / 12 / 1.5, 9);
  expect(found.metacentreMovementM()!).toBeCloseTo(1, 6);
  const kn = box.knOf!(180, 0);
  for (const heel of [-0.2, 0.03, 0.26]) expect(kn(heel)).toBeCloseTo(BOX.kn(heel), 9);
});

test('a list changes nothing of KM but is in the centre of buoyancy', () => {
  const listed = box.immersionOf({ ...LEVEL, heelSlope: 0.01 });
  expect(listed.kmM).toBeCloseTo(2.75, 9);
  expect(listed.tcbM).toBeCloseTo((0.01 * 36) / 12 / 1.5, 9);
});

test('hog takes volume: two thirds of it over a box', () => {
  const hogged = box.immersionOf({ ...LEVEL, sagM: -0.03 });
  expect(hogged.volumeM3).toBeCloseTo(20 * 6 * (1.5 - 0.02), 8);
});

test('trim is in the volume, the centre and KM', () => {
  const trimmed = box.immersionOf({ ...LEVEL, trimSlope: 0.02 });
  expect(trimmed.volumeM3).toBeCloseTo(180, 8);
  expect(trimmed.lcbM).toBeCloseTo(10 - (0.02 * 400) / 12 / 1.5, 9);
  expect(trimmed.kmM).toBeCloseTo((1.5 ** 2 + 0.4 ** 2 / 12) / 2 / 1.5 + 3 / 1.5, 6);
});

test('the box from a table of offsets is the box in closed form', () => {
  const table = offsetsFromGrid(gridFromCsv('box.csv', BOX_OFFSETS_CSV));
  const hull = hullAfloatOf(hullFromOffsets(table, { name: 'box', offsetsAre: 'outside' }), 20);
  const surface = { middleM: 1.5, trimSlope: 0.01, heelSlope: 0.02, sagM: -0.01 };
  const found = hull.immersionOf(surface);
  const closed = box.immersionOf(surface);
  for (const name of ['volumeM3', 'lcbM', 'tcbM', 'vcbM', 'kmM', 'kmLongitudinalM'] as const) {
    expect(Math.abs(found[name]! / closed[name]! - 1)).toBeLessThan(1e-6);
  }
  expect(hull.immersionOf(LEVEL).metacentreMovementM()!).toBeCloseTo(1, 5);
  expect(hull.knOf!(180, 0)(0.06)).toBeCloseTo(BOX.kn(0.06), 9);
});
