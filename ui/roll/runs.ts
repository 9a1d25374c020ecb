import type { SessionRollRun, SessionState } from '#core/session/session.ts';

/** One run of the roll test as a row of the page. */
export interface RunRow {
  /** Number among the runs that count; null: left out. */
  readonly number: number | null;
  readonly run: SessionRollRun;
  /** Why it does not count, in words. */
  readonly why: string | null;
}

/** Every run in the order it was recorded, counted where it counts. */
export function runRows({ rollRuns }: Pick<SessionState, 'rollRuns'>): RunRow[] {
  let number = 0;
  return rollRuns.map((run) => {
    const why = whyNot(run);
    if (why === null) number += 1;
    return { number: why === null ? number : null, run, why };
  });
}

export const runsThatCount = (session: Pick<SessionState, 'rollRuns'>): number =>
  runRows(session).filter((row) => row.number !== null).length;

function whyNot({ rolled, refused }: SessionRollRun): string | null {
  if (refused !== null) return `left out by ${refused.written.author}: ${refused.reason}`;
  return rolled.run.refused?.words ?? null;
}

/** Seconds before now as a person types them; null: not from earlier to later, or not of the last twenty minutes. */
export function markedStretch(
  fromAgo: string,
  toAgo: string,
  nowS: number,
): { fromS: number; toS: number } | null {
  const [from, to] = [fromAgo, toAgo].map((typed) => {
    const text = typed.trim().replace(',', '.');
    return /^\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  });
  if (from === undefined || to === undefined) return null;
  if (!(from > to) || from > MOST_AGO_S) return null;
  return { fromS: nowS - from, toS: nowS - to };
}

const MOST_AGO_S = 1200;
