import { WINDOWS } from '#tests/support/cell-score.ts';
import { ESTIMATOR_CELLS, type EstimatorCell } from '#tests/support/estimator-cells.ts';
import type { TrialResult } from './part.ts';

type Sums = (name: string) => number;

/** What the accumulated cells say beside what is aimed at, cell by cell. */
export function estimatorTable(results: readonly TrialResult[]): string {
  const lines = results.filter(({ part }) => part === 'estimator');
  const sumsOf =
    ({ name }: EstimatorCell): Sums =>
    (sum) =>
      lines.reduce((total, { figures }) => total + Number(figures[`${name}.${sum}`] ?? 0), 0);
  const rows = ESTIMATOR_CELLS.map((cell) => ({ cell, sums: sumsOf(cell) })).filter(
    ({ sums }) => sums('n') > 0,
  );
  if (rows.length === 0) return '  no cells yet';
  return [
    '  Estimated heel: rms error over that of generalised least squares with true parameters (at five',
    '  periods alone, three with a taught day, three alone: aims 1.05, 1.10, 1.35), per cent of true',
    '  heels inside the stated 95 % interval (aim 93 to 97; 90 to 99 in cells o-), rms error in degrees,',
    "  and the roll periods a person's way needs for the rms error reached here in five.",
    '  cell          T s damp  roll  noise ring |  n    | 5     3t    3     | 5    5t   3t   3    12t  | 5       | extremes mean median',
    ...rows.map(({ cell, sums }) => rowOf(cell, sums)),
    summary(rows),
  ].join('\n');
}

function rowOf(cell: EstimatorCell, sums: Sums): string {
  const n = sums('n');
  const ratio = (own: string, bound: string) =>
    cell.truth === 'model' ? Math.sqrt(sums(own) / sums(bound)).toFixed(3) : '  -  ';
  const held = (own: string) => ((100 * sums(`${own}in`)) / n).toFixed(1).padStart(4);
  const rms = Math.sqrt(sums('alone5') / n);
  const needs = ['extremes', 'mean', 'median'].map((way) => periodsFor(way, rms, sums).padStart(6));
  return [
    `  ${cell.name.padEnd(12)} ${cell.periodS.toFixed(1).padStart(4)} ${cell.dampingRatio.toFixed(2)} ${cell.rollDeg.toFixed(2).padStart(5)} ${cell.noiseDeg.toFixed(3).padStart(6)} ${cell.ringingDeg.toFixed(1).padStart(4)} `,
    ` ${String(n).padStart(5)} `,
    ` ${ratio('alone5', 'bound5')} ${ratio('taught3', 'bound3')} ${ratio('alone3', 'bound3')} `,
    ` ${['alone5', 'taught5', 'taught3', 'alone3', 'taught12'].map(held).join(' ')} `,
    ` ${rms.toFixed(4)}  `,
    ` ${needs.join(' ')}`,
  ].join('|');
}

/** Roll periods after which a person's way has this rms error, straight between windows in logarithms. */
function periodsFor(way: string, rms: number, sums: Sums): string {
  const n = sums('n');
  const at = WINDOWS.map((periods) => Math.sqrt(sums(`${way}${periods}`) / n));
  const k = at.findIndex((one) => one <= rms);
  if (k < 0) return `>${WINDOWS.at(-1)}`;
  if (k === 0) return `<${WINDOWS[0]}`;
  const share = Math.log(at[k - 1]! / rms) / Math.log(at[k - 1]! / at[k]!);
  return (WINDOWS[k - 1]! * (WINDOWS[k]! / WINDOWS[k - 1]!) ** share).toFixed(1);
}

function summary(rows: readonly { cell: EstimatorCell; sums: Sums }[]): string {
  const model = rows.filter(({ cell }) => cell.truth === 'model');
  const within = (own: string, bound: string, most: number) =>
    model.filter(({ sums }) => Math.sqrt(sums(own) / sums(bound)) <= most).length;
  const covered = (own: string, of: typeof rows, least: number, most: number) =>
    of.filter(({ sums }) => {
      const share = sums(`${own}in`) / sums('n');
      return share >= least && share <= most;
    }).length;
  const others = rows.filter(({ cell }) => cell.truth !== 'model');
  const under = (own: string, of: typeof rows, least: number) =>
    of.filter(({ sums }) => sums(`${own}in`) / sums('n') < least).length;
  return [
    `  of ${model.length} model cells: five periods within 1.05 in ${within('alone5', 'bound5', 1.05)}, three taught within 1.10 in ${within('taught3', 'bound3', 1.1)}, three alone within 1.35 in ${within('alone3', 'bound3', 1.35)};`,
    `  coverage 93 to 97 % in ${covered('alone5', model, 0.93, 0.97)} (five), ${covered('taught5', model, 0.93, 0.97)} (five taught), ${covered('taught3', model, 0.93, 0.97)} (three taught); under 93 % in ${under('alone5', model, 0.93)}, ${under('taught5', model, 0.93)}, ${under('taught3', model, 0.93)};`,
    `  of ${others.length} others 90 to 99 % in ${covered('taught5', others, 0.9, 0.99)} (five taught), under 90 % in ${under('taught5', others, 0.9)}`,
  ].join('\n');
}
