import { type CellSums, RECORDS_A_DAY, scoreDay } from '#tests/support/cell-score.ts';
import { ESTIMATOR_CELLS } from '#tests/support/estimator-cells.ts';
import { estimatorTable } from './estimator-table.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';

/** Records an accumulated cell is to have. */
const ENOUGH_RECORDS = 2500;
/** Days of one cell between two looks at the clock. */
const DAYS_AT_ONCE = 10;

/**
 * Heel of records whose best possible error is known: each slice goes on with the cell that has
 * the fewest records, and the sums add up over slices. Figures are `cell.sum`; see cell-score.ts.
 */
export const estimator: TrialPart = {
  name: 'estimator',
  what: 'heel and its interval on records whose bound is known, beside a person and a pendulum',
  run(context: TrialContext): Promise<TrialResult> {
    const figures: Record<string, number> = {};
    const kept = recordsKept(context.kept);
    let day = context.firstSeed;
    while (context.nowMs() < context.untilMs) {
      const [next] = [...ESTIMATOR_CELLS].sort((a, b) => (kept[a.name] ?? 0) - (kept[b.name] ?? 0));
      if (next === undefined || (kept[next.name] ?? 0) >= ENOUGH_RECORDS) break;
      const sums: CellSums = {};
      for (let n = 0; n < DAYS_AT_ONCE; n++) scoreDay(next, day++, sums);
      for (const [name, value] of Object.entries(sums)) {
        const key = `${next.name}.${name}`;
        figures[key] = (figures[key] ?? 0) + value;
      }
      kept[next.name] = (kept[next.name] ?? 0) + DAYS_AT_ONCE * RECORDS_A_DAY;
    }
    return Promise.resolve({
      part: 'estimator',
      commit: context.commit,
      seeds: [context.firstSeed, day - context.firstSeed],
      figures,
      broken: [],
    });
  },
  table: estimatorTable,
};

function recordsKept(kept: readonly TrialResult[]): Record<string, number> {
  const records: Record<string, number> = {};
  for (const line of kept.filter(({ part }) => part === 'estimator')) {
    for (const { name } of ESTIMATOR_CELLS) {
      records[name] = (records[name] ?? 0) + Number(line.figures[`${name}.n`] ?? 0);
    }
  }
  return records;
}
