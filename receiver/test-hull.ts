import { dirname, join } from 'node:path';
import { Fault } from '#core/fault/fault.ts';
import { type HullAfloat, hullAfloatOf } from '#core/flotation/hull-afloat.ts';
import { tablesAfloat } from '#core/flotation/tables-afloat.ts';
import { hydrostaticTablesFromGrid, knTableFromGrid } from '#core/hull/tables.ts';
import type { TestInput } from '#core/reduction/test-input.ts';
import { gridFromFile, hullFromFile } from './hull-file.ts';
import { measuredHullFromFile, spotChecksFromFile } from './measured-hull-file.ts';

/** The hull or tables a test names, from files beside its own; null where it names none. Throws what `hullFromFile` throws. */
export async function hullOfTest(test: TestInput, path: string): Promise<HullAfloat | null> {
  const { hull, waterline } = test;
  if (hull === undefined || waterline === undefined) return null;
  const { lengthM } = waterline;
  const spots = hull.check === undefined ? null : spotChecksFromFile(fileBeside(path, hull.check));
  if (hull.file !== undefined) {
    const lines = await hullFromFile(fileBeside(path, hull.file));
    return hullAfloatOf(lines, lengthM, spots === null ? null : { points: null, spots });
  }
  if (hull.points !== undefined) {
    const points = await measuredHullFromFile(fileBeside(path, hull.points));
    return hullAfloatOf(points.hull, lengthM, { points, spots });
  }
  const { file, densityKgM3, knFile } = hull.tables!;
  const grid = await gridFromFile(fileBeside(path, file));
  const tables = hydrostaticTablesFromGrid(grid, { densityKgM3, lengthM });
  const kn =
    knFile === undefined ? null : knTableFromGrid(await gridFromFile(fileBeside(path, knFile)));
  return tablesAfloat(tables, kn);
}

/** Only files beside the input are read: an input from someone else names no other folder. */
export function fileBeside(path: string, name: string): string {
  if (/[\\/]/.test(name)) {
    throw new Fault(
      'input-shape',
      `${path}: hull`,
      'the name of a file beside it, without a folder',
    );
  }
  return join(dirname(path), name);
}
