import { hydrostaticTablesFromGrid, knTableFromGrid } from '#core/hull/tables.ts';
import { type TablesOutput, type TablesQuestion, tablesAnswer } from '#core/hull/tables-output.ts';
import { gridFromFile } from '../hull-file.ts';
import { fixedWords, tableWords } from './figure.ts';

/** Where tables were asked for: what they need besides, in the words of the options. */
export interface TablesTyped {
  readonly lengthM: number;
  readonly densityKgM3: number;
  readonly knFile: string | null;
}

/** The answer from a file of tables. Throws the codes of `core/hull` with file, row and column. */
export async function tablesAnswerOfFile(
  path: string,
  { lengthM, densityKgM3, knFile }: TablesTyped,
  question: TablesQuestion,
): Promise<TablesOutput> {
  const tables = hydrostaticTablesFromGrid(await gridFromFile(path), { densityKgM3, lengthM });
  const kn = knFile === null ? null : knTableFromGrid(await gridFromFile(knFile));
  return tablesAnswer(tables, kn, question);
}

/** The same as lines of words; figures are rounded here only. */
export function tablesWords(answer: TablesOutput): string[] {
  const metres = (value: number | null) =>
    value === null ? 'not in the tables' : `${fixedWords(value, 3)} m`;
  const { tables } = answer;
  const other = (value: number | null, unit: string) =>
    value === null ? 'not in the tables' : `${fixedWords(value, 4)} ${unit}`;
  return [
    `${tables.name}: tables for water of ${fixedWords(tables.densityKgM3, 1)} kg/m3, ${metres(tables.lengthBetweenPerpendicularsM)} between perpendiculars, trims ${tables.trimsM.map((trim) => fixedWords(trim, 3)).join(', ')} m`,
    ...tableWords([
      ['draught midway', metres(answer.draughtMeanM)],
      ['trim by the stern', metres(answer.trimM)],
      [
        `displacement in water of ${fixedWords(answer.densityKgM3, 1)} kg/m3`,
        `${fixedWords(answer.displacementT, 3)} t`,
      ],
      ['centre of buoyancy, from the after perpendicular', metres(answer.lcbM)],
      ['  over the baseline, KB', metres(answer.kbM)],
      ['centre of flotation', metres(answer.lcfM)],
      ['KM transverse', metres(answer.kmTransverseM)],
      ['tonnes for a centimetre', other(answer.immersionTPerCm, 't')],
      ['moment to trim a centimetre', other(answer.trimMomentTMPerCm, 't m')],
      ...(answer.kgM === null || answer.gmTransverseM === null
        ? []
        : [[`GM solid with KG ${metres(answer.kgM)}`, metres(answer.gmTransverseM)]]),
    ]),
    ...(answer.levers === null
      ? ['no table of KN given (--kn): no levers']
      : answer.levers.flatMap(leverWords)),
  ];
}

function leverWords(one: NonNullable<TablesOutput['levers']>[number]): string[] {
  const withGz = one.points.some((point) => point.gzM !== null);
  return [
    '',
    `Levers at ${fixedWords(one.displacementT, 3)} t, as the tables give them`,
    ...tableWords([
      ['heel, degrees', 'KN, m', ...(withGz ? ['GZ, m'] : [])],
      ...one.points.map(({ heelDeg, knM, gzM }) => [
        fixedWords(heelDeg, 1),
        fixedWords(knM, 4),
        ...(gzM === null ? [] : [fixedWords(gzM, 4)]),
      ]),
    ]),
  ];
}
