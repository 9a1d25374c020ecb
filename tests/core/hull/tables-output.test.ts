import { describe, expect, it } from 'vitest';
import { gridFromCsv } from '#core/hull/grid.ts';
import { hydrostaticTablesFromGrid, knTableFromGrid } from '#core/hull/tables.ts';
import { tablesAnswer, tablesOutput } from '#core/hull/tables-output.ts';
import { BOX_KN_CSV, BOX_TABLE_CSV } from '#tests/support/box-files.ts';

const tables = hydrostaticTablesFromGrid(gridFromCsv('box.csv', BOX_TABLE_CSV), {
  densityKgM3: 1025,
  lengthM: 20,
});
const kn = knTableFromGrid(gridFromCsv('kn.csv', BOX_KN_CSV));
const ASKED = {
  draughtM: 1.5,
  trimM: 0,
  densityKgM3: 1025,
  kgM: 2,
  heelsDeg: [0, 5, 10],
  displacementsT: [],
};

describe('tables at a waterline', () => {
  // box 20 m by 6 m at 1.5 m: 184.5 t, KM 0.75 + 36/12/1.5 = 2.75, KN wall-sided
  it('give the box in closed form, levers too', () => {
    const answer = tablesAnswer(tables, kn, ASKED);
    expect(tablesOutput.parse(JSON.parse(JSON.stringify(answer)))).toEqual(answer);
    expect(answer.displacementT).toBeCloseTo(184.5, 9);
    expect(answer.gmTransverseM).toBeCloseTo(0.75, 9);
    const ten = answer.levers![0]!.points[2]!;
    const heel = (10 * Math.PI) / 180;
    const closed = (2.75 + Math.tan(heel) ** 2) * Math.sin(heel);
    expect(ten.knM).toBeCloseTo(closed, 9);
    expect(ten.gzM).toBeCloseTo(closed - 2 * Math.sin(heel), 9);
  });

  it('of other water weigh more or less, and lever by volume', () => {
    const fresh = tablesAnswer(tables, kn, { ...ASKED, densityKgM3: 1000 });
    expect(fresh.displacementT).toBeCloseTo(180, 9);
    expect(fresh.levers![0]!.points[1]!.knM).toBeCloseTo(
      tablesAnswer(tables, kn, ASKED).levers![0]!.points[1]!.knM,
      9,
    );
  });

  it('say null for a column they have not, and no levers without KN', () => {
    const answer = tablesAnswer(tables, null, { ...ASKED, kgM: null });
    expect([answer.lcfM, answer.gmTransverseM, answer.levers]).toEqual([null, null, null]);
  });

  it('are never extrapolated: draught, trim, displacement, heel', () => {
    for (const beyond of [
      { draughtM: 1.85 },
      { trimM: 0.21 },
      { displacementsT: [250] },
      { heelsDeg: [12] },
    ]) {
      expect(() => tablesAnswer(tables, kn, { ...ASKED, ...beyond })).toThrow('tables-outside');
    }
  });
});
