import { Fault } from '#core/fault/fault.ts';
import type { Line, TakenOf } from '#core/record/line.ts';
import type { LineRead } from '#core/record/read-line.ts';
import { createWatch, ESTIMATOR } from '#core/steadiness/watch.ts';
import type { TakenReading, Watch, WatchSettings } from '#core/steadiness/watch-types.ts';
import type { Clock } from '#core/time/clock.ts';
import { LineFollowers } from './line-followers.ts';
import { LivePath, type WatchLink } from './live-path.ts';
import type { SteadinessHeard } from './steadiness-link.ts';
import type { ToSteadinessWorker } from './steadiness-messages.ts';
import { tellWatch } from './tell-watch.ts';

/** A heel, or its standard error, further off than this is another estimate. */
export const MOST_DIFFERENCE_DEG = 1e-9;
/** Each run of a receiver costs one pass over the record; no day has so many. */
const MOST_RUNS = 100;

type ReadingLine = Extract<Line, { kind: 'reading' }>;

/** One reading estimated once more. */
export interface Recomputed {
  readonly line: number;
  readonly state: number;
  /** Largest difference of a heel or a standard error, degrees; null where nothing could be compared. */
  readonly differenceDeg: number | null;
  /** Why it was not compared, or what is otherwise than the line says; null: the same. */
  readonly found: string | null;
  readonly outcome: 'same' | 'differs' | 'not-repeated';
}

/** Hands every line of a record to `follow`, from the first; throws the fault of one that does not hold. */
export type Lines = (follow: (read: LineRead) => void) => void;

/** Every reading of a record, voided ones too, estimated again from its blocks, as the live path did it. */
export async function recomputeReadings(lines: Lines): Promise<Recomputed[]> {
  const readings: ReadingLine[] = [];
  lines(({ line }) => {
    if (line.kind === 'reading') readings.push(line);
  });
  const done: Recomputed[] = [];
  const runs = new Map<number, { reading: ReadingLine; taken: TakenOf }[]>();
  for (const reading of readings) {
    const { taken, estimator } = reading.body;
    const why = notRepeatable(reading);
    if (taken === undefined || estimator !== ESTIMATOR || why !== null)
      done.push(why ?? notRepeated(reading, 'it does not say which lines it was taken of'));
    else
      runs.set(taken.startedLines, [...(runs.get(taken.startedLines) ?? []), { reading, taken }]);
  }
  if (runs.size > MOST_RUNS)
    throw new Fault('record-line', 'readings', `they are of ${runs.size} runs of a receiver`);
  for (const [startedLines, run] of runs)
    done.push(...(await recomputeRun(lines, startedLines, run)));
  return done.sort((a, b) => a.line - b.line);
}

function notRepeatable(reading: ReadingLine): Recomputed | null {
  const { taken, estimator } = reading.body;
  if (estimator !== ESTIMATOR)
    return notRepeated(reading, `estimated by ${estimator}, this program has ${ESTIMATOR}`);
  if (taken === undefined) return null;
  const { afterLines, startedLines, sinceLines, restartedLines } = taken;
  const inOrder =
    afterLines <= reading.n &&
    startedLines <= afterLines &&
    sinceLines <= afterLines &&
    (restartedLines ?? 0) <= afterLines;
  return inOrder ? null : differs(reading, null, 'it names lines that came after it');
}

async function recomputeRun(
  lines: Lines,
  startedLines: number,
  run: readonly { reading: ReadingLine; taken: TakenOf }[],
): Promise<Recomputed[]> {
  const done: Recomputed[] = [];
  const followers = new LineFollowers();
  let watch: WatchHere | null = null;
  const path = new LivePath(followers, STILL, (settings, heard) => {
    watch = new WatchHere(settings, heard);
    return watch;
  });
  /** What happened beside the lines when the record had so many of them. */
  const beside = (count: number): void => {
    if (count === startedLines) path.start(STILL);
    for (const { reading, taken } of run) {
      if (taken.restartedLines === count) watch?.restart();
      if (taken.sinceLines === count && count >= startedLines) path.beginAgain(taken.sinceS);
      if (taken.afterLines === count) done.push(compared(reading, taken, watch));
    }
  };
  beside(0);
  lines((read) => {
    followers.follow(read);
    path.follow(read);
    beside(followers.session.lines);
  });
  await path.close();
  return done;
}

function compared(reading: ReadingLine, taken: TakenOf, watch: WatchHere | null): Recomputed {
  if (watch === null) return differs(reading, null, 'no instrument was watched then');
  let again: TakenReading;
  try {
    again = watch.reading(taken.nowS);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return differs(reading, null, `no reading is offered: ${error.report.found}`);
  }
  const { joined, instruments } = reading.body;
  const names = (each: TakenReading['instruments']) => each.map((one) => one.instrument).join(', ');
  if (names(instruments) !== names(again.instruments))
    return differs(reading, null, `now of ${names(again.instruments)}`);
  const pairs = [
    [joined, again.joined] as const,
    ...instruments.map((one, k) => [one, again.instruments[k] ?? one] as const),
  ];
  const differenceDeg = Math.max(
    ...pairs.flatMap(([said, now]) => [
      Math.abs(said.heelDeg - now.heelDeg),
      Math.abs(said.standardErrorDeg - now.standardErrorDeg),
    ]),
  );
  if (differenceDeg > MOST_DIFFERENCE_DEG)
    return differs(
      reading,
      differenceDeg,
      `the line says ${joined.heelDeg} deg, its blocks give ${again.joined.heelDeg} deg`,
    );
  return { ...named(reading), differenceDeg, found: null, outcome: 'same' };
}

const named = ({ n, body }: ReadingLine) => ({ line: n, state: body.state });

function differs(reading: ReadingLine, differenceDeg: number | null, found: string): Recomputed {
  return { ...named(reading), differenceDeg, found, outcome: 'differs' };
}

function notRepeated(reading: ReadingLine, found: string): Recomputed {
  return { ...named(reading), differenceDeg: null, found, outcome: 'not-repeated' };
}

/** Nothing is estimated by the time of this machine: each reading says what time the watch was told. */
const STILL: Clock = { monotonicS: () => 0, wallMs: () => 0 };

/** The watch without a thread of its own: it does at once what it is told. */
class WatchHere implements WatchLink {
  readonly #heard: SteadinessHeard;
  #settings: WatchSettings;
  #watch: Watch;

  constructor(settings: WatchSettings, heard: SteadinessHeard) {
    this.#heard = heard;
    this.#settings = settings;
    this.#watch = createWatch(settings);
  }

  watch(settings: WatchSettings): void {
    this.#settings = settings;
    this.#watch = createWatch(settings);
  }

  restart(): void {
    this.#watch = createWatch(this.#settings);
    this.#heard.restarted();
  }

  post(message: ToSteadinessWorker): void {
    if (message.type === 'watch') this.watch(message.settings);
    else if (message.type === 'picture' || message.type === 'take-reading') return;
    else tellWatch(this.#watch, message);
  }

  askPicture(): void {}

  reading(nowS: number): TakenReading {
    return this.#watch.takeReading(nowS);
  }

  async takeReading(nowS: number): Promise<TakenReading> {
    return this.reading(nowS);
  }

  async close(): Promise<void> {}
}
