import { describe, expect, it } from 'vitest';
import { gridFromCsv } from '#core/hull/grid.ts';
import {
  hydrostaticTablesFromGrid,
  knFromTableM,
  knTableFromGrid,
  valuesFromTables,
} from '#core/hull/tables.ts';

const HEADER = 'draughtM,trimM,displacementT,lcbM,kmTransverseM,immersionTPerCm';
const rows = (trimM: number, by: number) =>
  [1, 1.5, 2, 2.5].map((t) => `${t},${trimM},${120 * t + by},10,${t / 2 + 3 / t},1.2`);
const tables = (text: readonly string[]) =>
  hydrostaticTablesFromGrid(gridFromCsv('tables.csv', [HEADER, ...text].join('\n')), {
    densityKgM3: 1025,
    lengthM: 20,
  });

describe('hydrostatics given as tables', () => {
  const given = tables([...rows(0, 0), ...rows(0.4, 4)]);

  it('serves between its draughts and trims, and for other water', () => {
    const at = (draughtM: number, trimM: number, densityKgM3 = 1025) =>
      valuesFromTables(given, { draughtM, trimM, densityKgM3 });
    expect(at(1.5, 0).displacementT).toBe(180);
    expect(at(1.7, 0.1).displacementT).toBeCloseTo(120 * 1.7 + 1, 10);
    expect(at(1.75, 0).kmTransverseM).toBeCloseTo(1.75 / 2 + 3 / 1.75, 1);
    expect(at(1.5, 0, 1000).displacementT).toBeCloseTo((180 * 1000) / 1025, 10);
    expect(at(1.5, 0, 1000).lcbM).toBe(10);
    expect(at(1.5, 0).kbM).toBeNull();
  });

  it('is never extrapolated, in draught or trim', () => {
    const at = (draughtM: number, trimM: number) => () =>
      valuesFromTables(given, { draughtM, trimM, densityKgM3: 1025 });
    expect(at(0.999, 0)).toThrow('tables-outside');
    expect(at(2.501, 0)).toThrow('tables-outside');
    expect(at(1.5, -0.01)).toThrow('tables-outside');
    expect(at(1.5, 0.41)).toThrow('tables-outside');
    const one = tables(rows(0, 0));
    const near = { draughtM: 1.5, trimM: 0.2, densityKgM3: 1025 };
    expect(valuesFromTables(one, near).displacementT).toBe(180);
    expect(() => valuesFromTables(one, { ...near, trimM: 0.21 })).toThrow('tables-outside');
  });

  it('refuses a table that does not rise or is too short', () => {
    expect(() => tables([...rows(0, 0)].reverse())).toThrow(/hull-order.*row 3/);
    expect(() => tables(rows(0, 0).slice(0, 2))).toThrow('input-too-few');
  });
});

describe('KN given as a table', () => {
  // Biran, Ship Hydrostatics and Stability, 2003: a small cargo ship of 2625 t.
  const heels = [0, 10, 20, 30, 45, 60, 75, 90];
  const levers = [0, 0.918, 1.833, 2.717, 3.847, 4.653, 5.007, 4.994];
  const text = (scale: number, displacementT: number) =>
    heels.map((heel, k) => `${displacementT},${heel},${levers[k]! * scale}`);
  const table = knTableFromGrid(
    gridFromCsv(
      'kn.csv',
      ['displacementT,heelDeg,knM', ...text(1, 2625), ...text(0.9, 2825)].join('\n'),
    ),
  );

  it('serves between its heels to both sides, and between its displacements', () => {
    expect(knFromTableM(table, 2625, 30)).toBeCloseTo(2.717, 12);
    expect(knFromTableM(table, 2625, -30)).toBeCloseTo(-2.717, 12);
    expect(knFromTableM(table, 2725, 20)).toBeCloseTo(0.95 * 1.833, 12);
    expect(knFromTableM(table, 2625, 5)).toBeCloseTo(0.4595, 3);
    expect(knFromTableM(table, 2625, 0)).toBe(0);
  });

  it('is never extrapolated', () => {
    expect(() => knFromTableM(table, 2624, 10)).toThrow('tables-outside');
    expect(() => knFromTableM(table, 2700, 91)).toThrow('tables-outside');
  });

  it('refuses a lever upright, and heels that differ', () => {
    const bad = (lines: string[]) => () =>
      knTableFromGrid(gridFromCsv('kn.csv', ['displacementT,heelDeg,knM', ...lines].join('\n')));
    expect(bad(['10,0,0.1', '10,10,1', '10,20,2'])).toThrow('input-contradiction');
    expect(bad([...text(1, 10), ...text(1, 20).slice(0, 5)])).toThrow('input-contradiction');
    expect(bad(['10,0,0', '10,10,1'])).toThrow('input-too-few');
  });
});
