import { Fault } from '#core/fault/fault.ts';
import type { Line } from '#core/record/line.ts';
import type { LineRead } from '#core/record/read-line.ts';
import { ROLL_ESTIMATOR } from '#core/reduction/roll-look.ts';
import { ESTIMATOR } from '#core/steadiness/watch.ts';
import type { Clock } from '#core/time/clock.ts';
import { LineFollowers } from './line-followers.ts';
import { LivePath } from './live-path.ts';
import { readingDifference } from './reading-difference.ts';
import { RollAgain } from './roll-again.ts';
import { WatchHere } from './watch-here.ts';
import { type Rejected, withClockRate } from './watch-link.ts';

/** Each run of a receiver costs one pass over the record; no day has so many. */
const MOST_RUNS = 100;

type LineOf<K extends Line['kind']> = Extract<Line, { kind: K }>;
type Estimated = LineOf<'reading'> | LineOf<'disturbance'> | LineOf<'roll-run'>;

/** One estimate made once more: a reading, time that was rejected, or a run of free roll. */
export interface Recomputed {
  readonly line: number;
  readonly kind: Estimated['kind'];
  /** State that was read; null for a rejection or a run. */
  readonly state: number | null;
  /** Largest difference of a heel or a standard error, degrees; null where none could be compared. */
  readonly differenceDeg: number | null;
  /** Why it was not compared, or what is otherwise than the line says; null: the same. */
  readonly found: string | null;
  readonly outcome: 'same' | 'differs' | 'not-repeated';
}

/** Hands every line of a record to `follow`, from the first; throws the fault of one that does not hold. */
export type Lines = (follow: (read: LineRead) => void) => void;

/**
 * Every reading of a record, voided ones too, every rejection and every run of roll, estimated again from its blocks
 * by the same path the receiver used: what that was told is all in the lines, in their order.
 */
export function recomputeEstimates(lines: Lines): Recomputed[] {
  const done: Recomputed[] = [];
  const runs = new Map<number, Estimated[]>();
  lines(({ line }) => {
    if (!isEstimated(line)) return;
    const not = notRepeatable(line);
    const startedLines = startedLinesOf(line);
    if (not !== null || startedLines === null) done.push(...(not === null ? [] : [not]));
    else runs.set(startedLines, [...(runs.get(startedLines) ?? []), line]);
  });
  if (runs.size > MOST_RUNS)
    throw new Fault('record-line', 'readings', `they are of ${runs.size} runs of a receiver`);
  for (const [startedLines, estimated] of runs) {
    const run = new RunAgain(startedLines, estimated);
    run.pass(lines);
    done.push(...run.done);
  }
  return done.sort((a, b) => a.line - b.line);
}

function isEstimated(line: Line): line is Estimated {
  return line.kind === 'reading' || line.kind === 'disturbance' || line.kind === 'roll-run';
}

function startedLinesOf(line: Estimated): number | null {
  if (line.kind === 'disturbance') return line.body.startedLines ?? null;
  return line.body.taken?.startedLines ?? null;
}

function notRepeatable(line: Estimated): Recomputed | null {
  const { estimator } = line.body;
  const startedLines = startedLinesOf(line);
  if (startedLines === null || estimator === undefined)
    return notRepeated(line, 'it does not say which lines it was taken of');
  const ours = line.kind === 'roll-run' ? ROLL_ESTIMATOR : ESTIMATOR;
  if (estimator !== ours)
    return notRepeated(line, `estimated by ${estimator}, this program has ${ours}`);
  const taken = line.kind === 'reading' ? line.body.taken : undefined;
  const rolled = line.kind === 'roll-run' ? line.body.taken : undefined;
  const named = [
    startedLines,
    taken?.afterLines ?? rolled?.afterLines ?? 0,
    taken?.sinceLines ?? 0,
    taken?.restartedLines ?? 0,
  ];
  const inOrder =
    Math.max(...named) <= line.n &&
    startedLines <= (taken?.afterLines ?? rolled?.afterLines ?? line.n);
  return inOrder ? null : differs(line, null, 'it names lines that came after it');
}

/** One run of a receiver over the record, told everything again. */
class RunAgain {
  readonly done: Recomputed[] = [];
  readonly #startedLines: number;
  readonly #readings: readonly LineOf<'reading'>[];
  readonly #disturbances: ReadonlySet<number>;
  readonly #rolls: readonly LineOf<'roll-run'>[];
  readonly #rolled = new RollAgain();
  readonly #followers = new LineFollowers();
  readonly #path: LivePath;
  #watch: WatchHere | null = null;
  /** Rejections found and not yet met as a line. */
  #rejected: Rejected[] = [];

  constructor(startedLines: number, estimated: readonly Estimated[]) {
    this.#startedLines = startedLines;
    this.#readings = estimated.filter((line) => line.kind === 'reading');
    this.#disturbances = new Set(
      estimated.filter(({ kind }) => kind === 'disturbance').map(({ n }) => n),
    );
    this.#rolls = estimated.filter((line) => line.kind === 'roll-run');
    this.#path = new LivePath(this.#followers, STILL, (settings, heard) => {
      this.#watch = new WatchHere(settings, heard);
      return this.#watch;
    });
    this.#path.onFinished = (rejected) => this.#rejected.push(...rejected);
  }

  pass(lines: Lines): void {
    this.#beside(0);
    lines((read) => {
      if (this.#disturbances.has(read.line.n)) this.#compareRejection(read.line);
      this.#followers.follow(read);
      this.#follow(read);
      this.#beside(this.#followers.session.lines);
    });
  }

  /** As the receiver does it: what goes wrong in showing a line keeps nothing else from being done. */
  #follow(read: LineRead): void {
    try {
      this.#path.follow(read);
    } catch (error) {
      if (!(error instanceof Error)) throw error;
    }
    const { line } = read;
    // What a worker that died had found and not yet said is in no line.
    if (line.kind === 'watching' && line.body.what === 'restarted') this.#rejected = [];
  }

  /** What happened beside the lines when the record had so many of them. */
  #beside(count: number): void {
    if (count === this.#startedLines) {
      this.#path.start(STILL);
      // The receiver too keeps for the roll only what comes after it has begun to watch.
      if (this.#rolls.length > 0) this.#path.onSmoothed = (heel) => this.#rolled.add(heel);
    }
    for (const reading of this.#readings)
      if (reading.body.taken?.afterLines === count) this.#compareReading(reading);
    for (const roll of this.#rolls) {
      if (roll.body.taken?.afterLines !== count) continue;
      const found = this.#rolled.difference(roll.body, this.#followers.session);
      const outcome = found === null ? 'same' : 'differs';
      this.done.push({ ...named(roll), differenceDeg: null, found, outcome });
    }
  }

  #compareReading(reading: LineOf<'reading'>): void {
    const nowS = reading.body.taken?.nowS ?? Number.NaN;
    if (this.#watch === null) {
      this.done.push(differs(reading, null, 'no instrument was watched then'));
      return;
    }
    try {
      const clocks = this.#followers.timeMap.rateUncertainty;
      const again = withClockRate(this.#watch.reading(nowS), clocks);
      const { differenceDeg, found } = readingDifference(reading.body, again);
      const outcome = found === null ? 'same' : 'differs';
      this.done.push({ ...named(reading), differenceDeg, found, outcome });
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.done.push(differs(reading, null, `no reading is offered: ${error.report.found}`));
    }
  }

  #compareRejection(line: Line): void {
    if (line.kind !== 'disturbance') return;
    const found = this.#rejected.shift();
    if (found === undefined) {
      this.done.push(differs(line, null, 'nothing is rejected there'));
      return;
    }
    const { estimator, ...said } = line.body;
    const same = JSON.stringify(inOrder(said)) === JSON.stringify(inOrder(found));
    this.done.push(
      same
        ? { ...named(line), differenceDeg: null, found: null, outcome: 'same' }
        : differs(
            line,
            null,
            `its blocks give ${found.kind} from ${found.fromS} to ${found.toS} s`,
          ),
    );
  }
}

const inOrder = ({ fromS, toS, kind, instruments, evidence }: Omit<Rejected, 'startedLines'>) => [
  fromS,
  toS,
  kind,
  instruments,
  evidence,
];

const named = (line: Estimated) => ({
  line: line.n,
  kind: line.kind,
  state: line.kind === 'reading' ? line.body.state : null,
});

function differs(line: Estimated, differenceDeg: number | null, found: string): Recomputed {
  return { ...named(line), differenceDeg, found, outcome: 'differs' };
}

function notRepeated(line: Estimated, found: string): Recomputed {
  return { ...named(line), differenceDeg: null, found, outcome: 'not-repeated' };
}

/** Nothing is estimated by the time of this machine: each reading says what time the watch was told. */
const STILL: Clock = { monotonicS: () => 0, wallMs: () => 0 };
