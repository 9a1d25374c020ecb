import type { CauseName } from './cause-names.ts';

/** A stretch of time that was not counted, told by the course of the heel. */
export interface CauseTrace {
  /** Place of the state that was awaited. */
  readonly state: number;
  /** As told: moved, wind, gust, wake, line, knock, drift. */
  readonly kind: string;
  /** Places of the instruments that alone showed it; null: she did it. */
  readonly instruments: readonly number[] | null;
}

/** What is said of one cause by the stretches that were not counted. */
export interface TraceSupport {
  readonly support: number;
  readonly traces: readonly CauseTrace[];
}

const AT_THE_PLACE = 3;
const ANYWHERE = 0.5;
const MOST_ANYWHERE = 3;

/** The kinds of stretch that speak for a cause, and whether they must lie where it begins. Ours. */
const SPEAKS: Partial<Record<CauseName, { kinds: readonly string[]; atPlace: boolean }>> = {
  moved: { kinds: ['moved', 'step'], atPlace: true },
  line: { kinds: ['line'], atPlace: false },
  'disturbed-state': { kinds: ['moved', 'wind', 'gust', 'wake'], atPlace: true },
  wind: { kinds: ['wind', 'gust'], atPlace: false },
  slipped: { kinds: ['knock', 'drift', 'step'], atPlace: true },
  'misread-instrument': { kinds: ['knock', 'stuck', 'saturated', 'vibration'], atPlace: true },
};

/** `place`: state it begins at, where it begins at one; `instrument`: the one it is of. */
export function traceSupport(
  cause: CauseName,
  traces: readonly CauseTrace[],
  place: number | null,
  instrument: number | null,
): TraceSupport {
  const speaks = SPEAKS[cause];
  if (speaks === undefined) return { support: 0, traces: [] };
  const own = traces.filter(
    ({ kind, state, instruments }) =>
      speaks.kinds.includes(kind) &&
      (instrument === null ? instruments === null : (instruments?.includes(instrument) ?? false)) &&
      (!speaks.atPlace || state === place),
  );
  const support = speaks.atPlace
    ? own.length > 0
      ? AT_THE_PLACE
      : 0
    : Math.min(MOST_ANYWHERE, ANYWHERE * own.length);
  return { support, traces: own };
}
