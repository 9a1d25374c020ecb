import type { Reading } from '#core/record/reading-line.ts';
import type { TakenReading } from '#core/steadiness/watch-types.ts';

/** A heel, or its standard error, further off than this is another estimate. */
export const MOST_DIFFERENCE_DEG = 1e-9;
/** Of every other figure, this part of it (of 1, where it is smaller). */
const MOST_PART = 1e-9;

/** What is otherwise in a reading estimated again than the line of it says. */
export interface ReadingDifference {
  /** Largest difference of a heel or a standard error, degrees; null where they are not of the same instruments. */
  readonly differenceDeg: number | null;
  /** In words; null: it is the same reading in every figure. */
  readonly found: string | null;
}

interface Compared {
  readonly what: string;
  readonly said: number | null | undefined;
  readonly now: number | null;
  readonly isAngle: boolean;
}

/** Holds every figure of a reading line against the reading its blocks give. */
export function readingDifference(line: Reading, again: TakenReading): ReadingDifference {
  const names = (each: readonly { instrument: string; label: string }[]) =>
    each.map(({ instrument, label }) => `${instrument} (${label})`).join(', ');
  if (names(line.instruments) !== names(again.instruments))
    return { differenceDeg: null, found: `now of ${names(again.instruments)}` };
  const compared = [...wholeOf(line, again), ...instrumentsOf(line, again)];
  const differenceDeg = compared
    .filter(({ isAngle }) => isAngle)
    .reduce((most, one) => Math.max(most, distance(one)), 0);
  const otherwise = compared.filter((one) => !isSame(one));
  if (otherwise.length === 0) return { differenceDeg, found: null };
  const words = otherwise.map(
    ({ what, said, now }) => `${what}: the line says ${said}, its blocks give ${now}`,
  );
  return { differenceDeg, found: words.join('; ') };
}

function wholeOf(line: Reading, again: TakenReading): Compared[] {
  const figure = (what: keyof Reading & keyof TakenReading): Compared => ({
    what,
    said: line[what] as number | null | undefined,
    now: again[what] as number | null,
    isAngle: false,
  });
  return [
    figure('fromS'),
    figure('toS'),
    figure('countedS'),
    figure('rollPeriodS'),
    figure('dampingRatio'),
    // Readings made before readings said so have none.
    ...(line.rollPeriodUncertaintyS === undefined ? [] : [figure('rollPeriodUncertaintyS')]),
    ...measured('joined', line.joined, again.joined),
  ];
}

function instrumentsOf(line: Reading, again: TakenReading): Compared[] {
  return line.instruments.flatMap((said, k) => {
    const now = again.instruments[k]!;
    return [
      ...measured(said.instrument, said, now),
      {
        what: `${said.instrument} sampleRateHz`,
        said: said.sampleRateHz,
        now: now.sampleRateHz,
        isAngle: false,
      },
    ];
  });
}

function measured(of: string, said: Reading['joined'], now: TakenReading['joined']): Compared[] {
  const figure = (what: keyof Reading['joined'], isAngle: boolean): Compared => ({
    what: `${of} ${what}`,
    said: said[what],
    now: now[what],
    isAngle,
  });
  return [
    figure('heelDeg', true),
    figure('standardErrorDeg', true),
    figure('degreesOfFreedom', false),
  ];
}

function distance({ said, now }: Compared): number {
  if (said == null || now === null) return (said ?? null) === now ? 0 : Number.POSITIVE_INFINITY;
  return Math.abs(said - now);
}

function isSame(one: Compared): boolean {
  const most = one.isAngle ? MOST_DIFFERENCE_DEG : MOST_PART * Math.max(1, Math.abs(one.said ?? 0));
  return distance(one) <= most;
}
