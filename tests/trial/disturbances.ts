import { disturbedDay, type StateOutcome } from '#tests/support/disturbed-day.ts';
import { disturbancesTable, SHARES, WASTES_S } from './disturbances-table.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';

/** Days the accumulated table is to have. */
const ENOUGH_DAYS = 1000;
/** Beyond this probability on either side of its own law no reading may lie. */
const IMPOSSIBLE = 1e-7;

/**
 * Days at sample level on vessels drawn anew, one disturbance a state: is it found before a reading
 * is accepted, called by its name, and are accepted readings where their own law says?
 */
export const disturbances: TrialPart = {
  name: 'disturbances',
  what: 'seeded disturbances found before a reading is accepted, and called by their names',
  run(context: TrialContext): Promise<TrialResult> {
    const figures: Record<string, number> = {};
    const add = (name: string, by = 1) => {
      figures[name] = (figures[name] ?? 0) + by;
    };
    const broken: string[] = [];
    let day = context.firstSeed;
    for (; context.nowMs() < context.untilMs; day++) {
      if (day - context.firstSeed >= ENOUGH_DAYS) break;
      add('days');
      for (const outcome of disturbedDay(day)) {
        count(outcome, add);
        const { below } = outcome;
        if (below !== null && Math.min(below, 1 - below) < IMPOSSIBLE) {
          add('impossible');
          context.say(`day ${day}: a reading after ${outcome.kind} lies beyond its 1e-7 point`);
        }
      }
    }
    return Promise.resolve({
      part: 'disturbances',
      commit: context.commit,
      seeds: [context.firstSeed, day - context.firstSeed],
      figures,
      broken,
    });
  },
  table: disturbancesTable,
};

function count(outcome: StateOutcome, add: (name: string, by?: number) => void): void {
  const { kind, moves, caught, called, below, wasteS, stray, watchedS } = outcome;
  if (kind !== 'none') {
    if (moves) {
      add('moves');
      add(`moves.${kind}`);
      if (caught) add('caught');
      else add(`missed.${kind}`);
    }
    if (called !== null) add(`called.${kind}.${called}`);
  }
  add('stray', stray.length);
  add('watchedS', watchedS);
  if (below === null) add('notRead');
  else add(`below.${Math.min(SHARES - 1, Math.floor(below * SHARES))}`);
  if (wasteS !== null) add(`waste.${WASTES_S.findIndex((mostS) => wasteS <= mostS)}`);
}
