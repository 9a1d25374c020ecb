import { Fault } from '../fault/fault.ts';
import { checkPositive } from '../quantity/check.ts';
import { fairLine } from './fair-line.ts';
import { type Grid, rowsUnderHeader } from './grid.ts';

const WANTED = ['draughtM', 'displacementT', 'lcbM', 'kmTransverseM'] as const;
const OPTIONAL = ['trimM', 'kbM', 'lcfM', 'immersionTPerCm', 'trimMomentTMPerCm'] as const;
type Column = (typeof WANTED)[number] | (typeof OPTIONAL)[number];
type Value = Exclude<Column, 'draughtM' | 'trimM'>;

/** What a table gives at one waterline; null where it has no such column. */
export type TableValues = Readonly<Record<Value, number | null>>;

/** Hydrostatics given as a table: draughts midway between perpendiculars, trims by the stern. */
export interface HydrostaticTables {
  readonly name: string;
  /** Density of the water the displacements are stated for. */
  readonly densityKgM3: number;
  readonly lengthM: number;
  readonly trims: readonly {
    readonly trimM: number;
    readonly draughtsM: readonly number[];
    readonly values: Readonly<Partial<Record<Value, readonly number[]>>>;
  }[];
}

/**
 * A table of one trim only is used this far from it, as a share of the length: hydrostatics are for
 * the actual trim beyond it (46 CFR 170 guideline of the US Coast Guard: trim at most 1 % of length).
 */
const ONE_TRIM_SHARE = 0.01;
const VALUES: readonly Value[] = [
  'displacementT',
  'lcbM',
  'kmTransverseM',
  'kbM',
  'lcfM',
  'immersionTPerCm',
  'trimMomentTMPerCm',
];

/**
 * Reads a table with the columns draughtM, displacementT, lcbM, kmTransverseM and, where given,
 * trimM, kbM, lcfM, immersionTPerCm, trimMomentTMPerCm. Throws `hull-columns`, `hull-number`,
 * `hull-order` for draughts or displacements that do not rise, `input-too-few`.
 */
export function hydrostaticTablesFromGrid(
  grid: Grid,
  { densityKgM3, lengthM }: { densityKgM3: number; lengthM: number },
): HydrostaticTables {
  checkPositive(densityKgM3, 'density of the tables, kg/m3');
  checkPositive(lengthM, 'length between perpendiculars, m');
  const rows = rowsUnderHeader<Column>(grid, WANTED, OPTIONAL);
  const byTrim = new Map<number, typeof rows>();
  for (const row of rows) {
    const trimM = row.text('trimM') === null ? 0 : row.number('trimM');
    byTrim.set(trimM, [...(byTrim.get(trimM) ?? []), row]);
  }
  const trims = [...byTrim]
    .sort(([a], [b]) => a - b)
    .map(([trimM, group]) => {
      if (group.length < 3) {
        throw new Fault(
          'input-too-few',
          grid.name,
          `${group.length} draughts at a trim of ${trimM} m`,
        );
      }
      group.forEach((row, i) => {
        for (const column of ['draughtM', 'displacementT'] as const) {
          const before = group[i - 1]?.number(column) ?? Number.NEGATIVE_INFINITY;
          if (!(row.number(column) > before)) {
            throw new Fault(
              'hull-order',
              row.place(column),
              `${row.number(column)} comes after ${before}`,
            );
          }
        }
      });
      const given = VALUES.filter((column) => group.some((row) => row.text(column) !== null));
      const values = Object.fromEntries(
        given.map((column) => [column, group.map((row) => row.number(column))]),
      );
      return { trimM, draughtsM: group.map((row) => row.number('draughtM')), values };
    });
  return { name: grid.name, densityKgM3, lengthM, trims };
}

/**
 * The values at a draught and trim: fair lines over the draughts, straight between two trims.
 * Displacement is for the asked density. Throws `tables-outside`: tables are never extrapolated.
 */
export function valuesFromTables(
  tables: HydrostaticTables,
  { draughtM, trimM, densityKgM3 }: { draughtM: number; trimM: number; densityKgM3: number },
): TableValues {
  const [low, high, share] = trimsAround(tables, trimM);
  const value = (column: Value): number | null => {
    const [a, b] = [low, high].map((k) => {
      const { draughtsM, values } = tables.trims[k]!;
      const line = values[column];
      if (line === undefined) return null;
      const found = fairLine(draughtsM, line)(draughtM);
      if (found === null) {
        throw new Fault(
          'tables-outside',
          tables.name,
          `draught ${draughtM} m, the table runs from ${draughtsM[0]} to ${draughtsM.at(-1)} m`,
        );
      }
      return found;
    });
    return a === null || a === undefined || b === null || b === undefined
      ? null
      : a + (b - a) * share;
  };
  const found = Object.fromEntries(VALUES.map((column) => [column, value(column)])) as Record<
    Value,
    number | null
  >;
  const denser = densityKgM3 / tables.densityKgM3;
  const scaled = (one: number | null) => (one === null ? null : one * denser);
  return {
    ...found,
    displacementT: scaled(found.displacementT),
    immersionTPerCm: scaled(found.immersionTPerCm),
    trimMomentTMPerCm: scaled(found.trimMomentTMPerCm),
  };
}

function trimsAround(tables: HydrostaticTables, trimM: number): [number, number, number] {
  const { trims, lengthM, name } = tables;
  if (trims.length === 1) {
    const away = Math.abs(trimM - trims[0]!.trimM);
    if (away <= ONE_TRIM_SHARE * lengthM) return [0, 0, 0];
    throw new Fault(
      'tables-outside',
      name,
      `trim ${trimM} m, the table is for ${trims[0]!.trimM} m`,
    );
  }
  const high = trims.findIndex((one, k) => k > 0 && trimM <= one.trimM);
  if (high < 0 || trimM < trims[0]!.trimM) {
    throw new Fault(
      'tables-outside',
      name,
      `trim ${trimM} m, the table runs from ${trims[0]!.trimM} to ${trims.at(-1)!.trimM} m`,
    );
  }
  const [from, to] = [trims[high - 1]!.trimM, trims[high]!.trimM];
  return [high - 1, high, (trimM - from) / (to - from)];
}

/** KN given as a table: one row of levers for each displacement, heels to one side from 0. */
export interface KnTable {
  readonly name: string;
  readonly displacementsT: readonly number[];
  readonly heelsDeg: readonly number[];
  readonly knM: readonly (readonly number[])[];
}

/**
 * Reads KN in the long form displacementT,heelDeg,knM; every displacement has the same heels, 0
 * among them (where KN is 0 by its meaning). Throws `hull-columns`, `hull-number`,
 * `input-contradiction`, `input-too-few`.
 */
export function knTableFromGrid(grid: Grid): KnTable {
  const rows = rowsUnderHeader(grid, ['displacementT', 'heelDeg', 'knM'] as const);
  const byDisplacement = new Map<number, Map<number, number>>();
  for (const row of rows) {
    const levers = byDisplacement.get(row.number('displacementT')) ?? new Map([[0, 0]]);
    const heelDeg = row.number('heelDeg');
    if (heelDeg === 0 && row.number('knM') !== 0) {
      throw new Fault('input-contradiction', row.place('knM'), 'KN upright is zero');
    }
    levers.set(heelDeg, row.number('knM'));
    byDisplacement.set(row.number('displacementT'), levers);
  }
  const displacementsT = [...byDisplacement.keys()].sort((a, b) => a - b);
  const heelsDeg = [...(byDisplacement.get(displacementsT[0] ?? Number.NaN)?.keys() ?? [])].sort(
    (a, b) => a - b,
  );
  if (heelsDeg.length < 3) throw new Fault('input-too-few', grid.name, `${heelsDeg.length} heels`);
  const knM = displacementsT.map((displacementT) => {
    const levers = byDisplacement.get(displacementT)!;
    return heelsDeg.map((heelDeg) => {
      const lever = levers.get(heelDeg);
      if (lever === undefined || levers.size !== heelsDeg.length) {
        throw new Fault(
          'input-contradiction',
          grid.name,
          `other heels at ${displacementT} t than at ${displacementsT[0]} t`,
        );
      }
      return lever;
    });
  });
  return { name: grid.name, displacementsT, heelsDeg, knM };
}

/** KN at a displacement and heel, odd in heel. Throws `tables-outside`. */
export function knFromTableM(table: KnTable, displacementT: number, heelDeg: number): number {
  const size = Math.abs(heelDeg);
  const atHeel = table.knM.map((levers) => {
    // Both sides are given to the line, so that it passes upright as an odd one does.
    const heels = [
      ...table.heelsDeg
        .slice(1)
        .map((heel) => -heel)
        .reverse(),
      ...table.heelsDeg,
    ];
    const both = [
      ...levers
        .slice(1)
        .map((lever) => -lever)
        .reverse(),
      ...levers,
    ];
    return fairLine(heels, both)(size);
  });
  const lever = atHeel.includes(null)
    ? null
    : fairLine(table.displacementsT, atHeel as number[])(displacementT);
  if (lever === null) {
    throw new Fault(
      'tables-outside',
      table.name,
      `KN at ${displacementT} t and ${heelDeg} degrees`,
    );
  }
  return Math.sign(heelDeg) * lever;
}
