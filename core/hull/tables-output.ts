import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import {
  type HydrostaticTables,
  type KnTable,
  knFromTableM,
  type TableValues,
  valuesFromTables,
} from './tables.ts';

const given = z.number().nullable().describe('null: no such column, or a cell left empty');

/** What `hydrostatics --tables` answers: what the tables hold at a waterline, and nothing beyond. */
export const tablesOutput = z.strictObject({
  tables: z.strictObject({
    name: z.string(),
    densityKgM3: z.number().describe('of the water the displacements are stated for'),
    lengthBetweenPerpendicularsM: z.number(),
    trimsM: z.array(z.number()),
    between: z.string().describe('how the tables run between their rows'),
  }),
  densityKgM3: z.number(),
  draughtMeanM: z.number(),
  trimM: z.number(),
  displacementT: z.number(),
  lcbM: z.number(),
  kmTransverseM: z.number(),
  kbM: given,
  lcfM: given,
  immersionTPerCm: given,
  trimMomentTMPerCm: given,
  kgM: z.number().nullable(),
  gmTransverseM: z.number().nullable().describe('KM - KG, without free surfaces'),
  /** Null without a table of KN. */
  levers: z
    .array(
      z.strictObject({
        displacementT: z.number(),
        points: z.array(
          z.strictObject({ heelDeg: z.number(), knM: z.number(), gzM: z.number().nullable() }),
        ),
      }),
    )
    .nullable(),
});
export type TablesOutput = z.infer<typeof tablesOutput>;

export interface TablesQuestion {
  readonly draughtM: number;
  readonly trimM: number;
  readonly densityKgM3: number;
  readonly kgM: number | null;
  readonly heelsDeg: readonly number[];
  /** Displacements of the levers; the one found where empty. */
  readonly displacementsT: readonly number[];
}

const BETWEEN =
  'over draughts: cubics with the direction of the parabola through three rows; between two trims straight; never beyond the rows';

/** Everything the tables give, unrounded. Throws `tables-outside` for what they do not reach. */
export function tablesAnswer(
  tables: HydrostaticTables,
  kn: KnTable | null,
  question: TablesQuestion,
): TablesOutput {
  const { densityKgM3, kgM } = question;
  const found = valuesFromTables(tables, question);
  const [displacementT, lcbM, kmTransverseM] = [
    wanted(tables, found, 'displacementT'),
    wanted(tables, found, 'lcbM'),
    wanted(tables, found, 'kmTransverseM'),
  ];
  const asked = question.displacementsT.length > 0 ? question.displacementsT : [displacementT];
  return {
    tables: {
      name: tables.name,
      densityKgM3: tables.densityKgM3,
      lengthBetweenPerpendicularsM: tables.lengthM,
      trimsM: tables.trims.map(({ trimM }) => trimM),
      between: BETWEEN,
    },
    densityKgM3,
    draughtMeanM: question.draughtM,
    trimM: question.trimM,
    displacementT,
    lcbM,
    kmTransverseM,
    kbM: found.kbM,
    lcfM: found.lcfM,
    immersionTPerCm: found.immersionTPerCm,
    trimMomentTMPerCm: found.trimMomentTMPerCm,
    kgM,
    gmTransverseM: kgM === null ? null : kmTransverseM - kgM,
    levers: kn === null ? null : asked.map((one) => leversAt(tables, kn, question, one)),
  };
}

function wanted(tables: HydrostaticTables, found: TableValues, column: keyof TableValues): number {
  const value = found[column];
  if (value === null) throw new Fault('hull-columns', tables.name, `no column ${column}`);
  return value;
}

/** KN goes by volume: a displacement in other water is looked up as that volume in the tables' own. */
function leversAt(
  tables: HydrostaticTables,
  kn: KnTable,
  { densityKgM3, heelsDeg, kgM }: TablesQuestion,
  displacementT: number,
): NonNullable<TablesOutput['levers']>[number] {
  const ofTables = (displacementT * tables.densityKgM3) / densityKgM3;
  return {
    displacementT,
    points: heelsDeg.map((heelDeg) => {
      const knM = knFromTableM(kn, ofTables, heelDeg);
      const gzM = kgM === null ? null : knM - kgM * Math.sin((heelDeg * Math.PI) / 180);
      return { heelDeg, knM, gzM };
    }),
  };
}
