import { describe, expect, it } from 'vitest';
import { gridFromCsv } from '#core/hull/grid.ts';
import { hydrostaticTablesFromGrid } from '#core/hull/tables.ts';
import {
  HYDROSTATICS_TABLE,
  ITEMS_TABLE,
  OFFSETS_TABLE,
  TANKS_TABLE,
  WEIGHTS_TABLE,
} from '#core/survey/table-forms.ts';
import { previewTable, type TableForm } from '#core/survey/table-import.ts';

const of = <T>(form: TableForm<T>, text: string) => previewTable(gridFromCsv('t.csv', text), form);

describe('the tables a shipyard has', () => {
  it('of items: kinds by their words, places in millimetres', () => {
    const { taken, refused } = of(
      ITEMS_TABLE,
      'Item;Kind;Mass (kg);± (kg);LCG (mm);TCG (mm);VCG (mm);± place (mm);Note\n' +
        'Rope;deduct;350;20;7000;400;2200;100;wet\n' +
        'Winch;to be fitted;900;50;8000;0;3100;50;\n' +
        'Ghost;remove;1;1;1;1;1;1;\n' +
        'Air;deduct;0;1;1;1;1;1;\n',
    );
    expect(taken[0]?.value).toEqual({
      ...{ item: 'Rope', kind: 'deduct', massT: 0.35, massUncertaintyT: 0.02, note: 'wet' },
      at: { xM: 7, yM: 0.4, zM: 2.2 },
      ...{ placeUncertaintyM: 0.1, photographLine: null },
    });
    expect(taken[1]?.value.kind).toBe('to-be-fitted');
    expect(refused.map(({ row, field }) => [row, field])).toEqual([
      [4, 'kind'],
      [5, 'massT'],
    ]);
  });

  it('of weights and of tanks as boxes', () => {
    const weights = of(
      WEIGHTS_TABLE,
      'weight,mass,uncertainty,certificate,x,y,z\nA,0.25,0.0002,W-7,4,-2,2\nB,-1,0,,4,2,2\n',
    );
    expect(weights.taken[0]?.value).toMatchObject({
      weight: 'A',
      certificate: 'W-7',
      at: { yM: -2 },
    });
    expect(weights.refused).toEqual([{ row: 3, field: 'massT', reason: 'a mass is over zero' }]);
    const tanks = of(
      TANKS_TABLE,
      'tank,density (kg/m3),x from,x to,y from,y to,z from,z to,volume (l)\nfuel,840,3,5,-2,-1,0.8,1.6,820\nbad,840,5,3,-2,-1,0.8,1.6,\n',
    );
    expect(tanks.taken[0]?.value).toMatchObject({ tank: 'fuel', densityTM3: 0.84, volumeM3: 0.82 });
    expect(tanks.refused[0]).toMatchObject({ row: 3, field: 'shape' });
  });

  it('of offsets and hydrostatics, ready for the readers of hulls', () => {
    const offsets = of(
      OFFSETS_TABLE,
      'Station;Height (mm);Half-breadth (mm)\n0;660;0\n0;769;702\n',
    );
    expect(offsets.taken.map(({ value }) => value)).toEqual([
      { xM: 0, zM: 0.66, halfBreadthM: 0 },
      { xM: 0, zM: 0.769, halfBreadthM: 0.702 },
    ]);
    const rows = [1.2, 1.3, 1.4, 1.5].map(
      (draught) => `${draught},${40 * draught},6.5,3.2,${draught / 2}`,
    );
    const table = of(HYDROSTATICS_TABLE, `Draught,Displacement,LCB,KMt,KB\n${rows.join('\n')}\n`);
    const csv = `draughtM,displacementT,lcbM,kmTransverseM,kbM\n${table.taken.map(({ value }) => Object.values(value).join(',')).join('\n')}\n`;
    expect(() =>
      hydrostaticTablesFromGrid(gridFromCsv('t.csv', csv), { densityKgM3: 1025, lengthM: 15 }),
    ).not.toThrow();
  });
});
