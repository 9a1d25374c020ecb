import { Fault } from '#core/fault/fault.ts';
import type { Hull } from '#core/hull/hull.ts';
import { spotChecksInput } from '#core/hull/hull-evidence.ts';
import { hullFromOffsets } from '#core/hull/make-hull.ts';
import {
  hullFromMeasuredPoints,
  type MeasuredHull,
  measuredPointsFromGrid,
} from '#core/hull/measured-points.ts';
import type { MeasuredPoint } from '#core/hull/measured-section.ts';
import { checkedOffsets } from '#core/hull/offsets.ts';
import type { SpotMeasured } from '#core/hull/spot-check.ts';
import { bytesOf, gridFromFile } from './hull-file.ts';

/** A hull from points measured ashore (CSV or XLSX, `xM,yM,zM`). Throws the codes of `core/hull`. */
export async function measuredHullFromFile(
  path: string,
): Promise<{ hull: Hull; measured: readonly MeasuredPoint[]; made: MeasuredHull }> {
  const measured = measuredPointsFromGrid(await gridFromFile(path));
  const made = hullFromMeasuredPoints(measured);
  const table = checkedOffsets(made.stations, path);
  return { hull: hullFromOffsets(table, { name: path, offsetsAre: 'outside' }), measured, made };
}

/** Spot checks from JSON. Throws `input-not-json`, `input-shape`, `file-not-readable`. */
export function spotChecksFromFile(path: string): SpotMeasured[] {
  let json: unknown;
  try {
    json = JSON.parse(bytesOf(path).toString('utf8'));
  } catch (error) {
    if (error instanceof Fault) throw error;
    throw new Fault('input-not-json', path, (error as Error).message);
  }
  const checked = spotChecksInput.safeParse(json);
  if (checked.success) return checked.data;
  const issue = checked.error.issues[0];
  const field = issue?.path.map(String).join('.') || 'the whole';
  throw new Fault('input-shape', `${path}: ${field}`, issue?.message ?? 'not of the agreed form');
}
