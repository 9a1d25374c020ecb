import { readFileSync } from 'node:fs';
import { Fault } from '#core/fault/fault.ts';
import { gridFromCsv } from '#core/hull/grid.ts';
import type { Hull } from '#core/hull/hull.ts';
import { hullInput } from '#core/hull/hull-input.ts';
import { hullFromOffsets } from '#core/hull/make-hull.ts';
import { offsetsFromGrid } from '#core/hull/offsets.ts';

/**
 * *Marram*'s lines, invented for the demo like everything else of her. The bundled programs lie as
 * deep in the project as this file does, so one relative place serves both.
 */
export function marramHull(): Hull {
  const text = (name: string) =>
    readFileSync(new URL(`../../device/emulated/${name}`, import.meta.url), 'utf8');
  const parts = hullInput.parse(JSON.parse(text('marram.json')));
  if (typeof parts.offsets !== 'string') {
    throw new Fault('program-fault', 'marram.json', 'offsets is not the name of a file');
  }
  return hullFromOffsets(offsetsFromGrid(gridFromCsv(parts.offsets, text(parts.offsets))), parts);
}
