import { readFileSync } from 'node:fs';
import { Fault } from '#core/fault/fault.ts';
import { deckAt } from '#core/hull/deck-line.ts';
import { gridFromCsv, rowsUnderHeader } from '#core/hull/grid.ts';
import type { Hull } from '#core/hull/hull.ts';
import { hullInput } from '#core/hull/hull-input.ts';
import { hullFromOffsets } from '#core/hull/make-hull.ts';
import { offsetsFromGrid } from '#core/hull/offsets.ts';

/**
 * *Marram*'s lines, invented for the demo like everything else of her. The bundled programs lie as
 * deep in the project as this file does, so one relative place serves both.
 */
export function marramHull(): Hull {
  const { parts, grid } = linesOfMarram();
  return hullFromOffsets(offsetsFromGrid(grid), parts);
}

/** The same as one text: her hull file with the table of offsets in it. */
export function marramHullText(): string {
  const { parts, grid } = linesOfMarram();
  const sections = new Map<number, { zM: number; halfBreadthM: number }[]>();
  for (const row of rowsUnderHeader(grid, ['xM', 'zM', 'halfBreadthM'])) {
    const xM = row.number('xM');
    const points = sections.get(xM) ?? [];
    points.push({ zM: row.number('zM'), halfBreadthM: row.number('halfBreadthM') });
    sections.set(xM, points);
  }
  const offsets = [...sections].map(([xM, points]) => ({ xM, points }));
  return JSON.stringify({ ...parts, offsets });
}

/** Height of her deck at side. */
export function marramDeckM(xM: number): number {
  return deckAt(linesOfMarram().parts.deckLine ?? [])(xM).zM;
}

function linesOfMarram() {
  const text = (name: string) =>
    readFileSync(new URL(`../../device/emulated/${name}`, import.meta.url), 'utf8');
  const parts = hullInput.parse(JSON.parse(text('marram.json')));
  if (typeof parts.offsets !== 'string') {
    throw new Fault('program-fault', 'marram.json', 'offsets is not the name of a file');
  }
  return { parts, grid: gridFromCsv(parts.offsets, text(parts.offsets)) };
}
