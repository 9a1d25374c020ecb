import { DISTURBANCE_KINDS } from '#tests/support/disturbed-state.ts';
import type { TrialResult } from './part.ts';

/** Probability-integral values are kept by shares of this number, waits after a wake by these steps. */
export const SHARES = 100;
export const WASTES_S = [0, 2, 4, 6, 8, 10, 15, 20, 30, 50, Number.POSITIVE_INFINITY] as const;

/** What a judge may call what goes on and does not understand. */
const OTHER_WORDS = ['step', 'change', 'unsettled'] as const;

/** What the accumulated days say beside what is aimed at, and what was taken for what. */
export function disturbancesTable(results: readonly TrialResult[]): string {
  const lines = results.filter(({ part }) => part === 'disturbances');
  const sum = (name: string) =>
    lines.reduce((total, { figures }) => total + Number(figures[name] ?? 0), 0);
  if (sum('days') === 0) return '  no days yet';
  const called = DISTURBANCE_KINDS.flatMap((kind) =>
    words().map((word) => ({ right: word === kind, count: sum(`called.${kind}.${word}`) })),
  );
  const all = called.reduce((total, { count }) => total + count, 0);
  const right = called.reduce((total, one) => total + (one.right ? one.count : 0), 0);
  const percent = (part: number, whole: number) => `${((100 * part) / whole).toFixed(1)} %`;
  const missed = DISTURBANCE_KINDS.filter((kind) => sum(`missed.${kind}`) > 0).map(
    (kind) => `${kind} ${sum(`missed.${kind}`)} of ${sum(`moves.${kind}`)}`,
  );
  const perQuiet = (1200 * sum('stray')) / sum('watchedS');
  return [
    `  ${sum('days')} days (aim 1000), ${sum('notRead')} states without a reading`,
    `  that would move the reading, found before it: ${percent(sum('caught'), sum('moves'))} of ${sum('moves')} (aim 95 %); missed: ${missed.join(', ') || 'none'}`,
    `  called by its name: ${percent(right, all)} of ${all} (aim 85 %); rejected for nothing in 20 minutes: ${perQuiet.toFixed(2)} (aim 1 at most)`,
    `  probability-integral values: largest distance from uniform ${largestDistance(sum).toFixed(3)} (aim .03 at most), beyond their 1e-7 point ${sum('impossible')} (aim none)`,
    `  not used after a wake was over for her: half of them at most ${medianWasteS(sum)} s`,
    '  what it was (down) and what it was called (across)',
    `  ${'-'.padEnd(10)} ${words()
      .map((word) => word.slice(0, 9).padStart(9))
      .join(' ')}`,
    ...DISTURBANCE_KINDS.map(
      (kind) =>
        `  ${kind.padEnd(10)} ${words()
          .map((word) => `${sum(`called.${kind}.${word}`)}`.padStart(9))
          .join(' ')}`,
    ),
  ].join('\n');
}

const words = (): readonly string[] => [...DISTURBANCE_KINDS, ...OTHER_WORDS];

function largestDistance(sum: (name: string) => number): number {
  const counts = Array.from({ length: SHARES }, (_, share) => sum(`below.${share}`));
  const all = counts.reduce((total, count) => total + count, 0);
  let below = 0;
  return Math.max(
    ...counts.map((count, share) => {
      below += count / all;
      return Math.abs(below - (share + 1) / SHARES);
    }),
  );
}

function medianWasteS(sum: (name: string) => number): string {
  const counts = WASTES_S.map((_, step) => sum(`waste.${step}`));
  const all = counts.reduce((total, count) => total + count, 0);
  let so = 0;
  const at = counts.findIndex((count) => {
    so += count;
    return so >= all / 2;
  });
  return all === 0 ? '-' : `${WASTES_S[at]}`;
}
