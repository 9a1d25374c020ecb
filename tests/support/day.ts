import type { Line, LineBody, LineKind, Simulation, TestOpened } from '#core/record/line.ts';
import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import type { MountedInstrument } from '#core/sample/indicated-heel.ts';
import { Smoother } from '#core/sample/smoothing.ts';
import type {
  BoardClock,
  SampleBlock,
  StreamItem,
  StreamOpened,
} from '#core/sample/stream-item.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import { nextPlannedMoves } from '#core/session/order-of-day.ts';
import { predictHeelOfSession } from '#core/session/prediction.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import type { SessionResult } from '#core/session/session-result.ts';
import { stopTarget } from '#core/session/stop-target.ts';
import { momentOfPlaces } from '#core/shift/moment.ts';
import { createWatch, ESTIMATOR } from '#core/steadiness/watch.ts';
import type { NotUsed, Watch } from '#core/steadiness/watch-types.ts';
import { instrumentRefusal } from '#receiver/instruments.ts';

/** Where a day's stream items come from, in virtual time: emulated chips, or the samples entrance. */
export interface DaySource {
  readonly test: TestOpened;
  readonly simulation: Simulation;
  readonly mountings: readonly Mounting[];
  readonly certificates: readonly Certificate[];
  /** Second of the source's clock at which a day on it begins. */
  readonly startS?: number;
  /** Lets world time pass to this second and gives what was read; times of items are world seconds. */
  advance(untilS: number): Promise<readonly StreamItem[]> | readonly StreamItem[];
  /** Carries weights to their places of this state, and sets the disturbances. */
  order(atS: number, session: SessionState): void;
  /** True while the crane or hands carry. */
  carrying(atS: number): boolean;
}

export interface DayOutcome {
  readonly session: SessionState;
  readonly result: SessionResult;
  readonly worldTimeS: number;
  readonly notUsed: readonly NotUsed[];
  /** Seconds from a weight's landing (or the zero's beginning) to its reading. */
  readonly waitedS: readonly number[];
  /** Board-rate samples taken, by stream. */
  readonly samples: Readonly<Record<string, number>>;
}

export interface DayOptions {
  /** Seconds a state is watched at least, also when a reading is offered before. */
  readonly leastWatchS?: number;
  /** Second of the day's clock at its beginning; the source's own times count from it. */
  readonly startS?: number;
}

const STEP_S = 1;
/** Blocks are up to a second old when they come: that is not silence. */
const MOST_AHEAD_S = 2;
/** An architect would give the day up. */
const MOST_WAIT_S = 900;

/** The watch offered none in all that time: too rough a day, which is for the architect to give up. */
export class NoReading extends Error {}

const copyOf = <T>(list: readonly T[] | null): T[] | null => (list === null ? null : [...list]);

/** The samples of one stream on their way to the watch. */
class StreamLane {
  readonly opened: StreamOpened;
  clock: BoardClock | null = null;
  conversion: HeelConversion;
  samples = 0;
  nextSequence = 0;

  constructor(opened: StreamOpened, mounted: readonly MountedInstrument[]) {
    this.opened = opened;
    this.conversion = new HeelConversion(opened, mounted);
  }

  timesOf(block: SampleBlock): number[] {
    const clock = this.clock;
    if (clock === null) throw new Error(`${block.stream} has samples before a clock pairing`);
    let atUs = block.firstBoardUs;
    return block.stepUs.map((stepUs) => {
      atUs += stepUs;
      return clock.stationS + (atUs - clock.boardUs) * 1e-6 * clock.rate;
    });
  }
}

/** A whole inclining test as an architect would conduct it, taking each reading as soon as it is offered. */
export class VirtualDay {
  session: SessionState = EMPTY_SESSION;
  readonly notUsed: NotUsed[] = [];
  readonly waitedS: number[] = [];
  readonly watch: Watch;
  readonly #source: DaySource;
  readonly #lanes = new Map<string, StreamLane>();
  readonly #smoothers = new Map<string, Smoother>();
  readonly #waiting: SampleBlock[] = [];
  readonly #leastWatchS: number;
  #nowS = 0;
  #newestS = 0;

  constructor(source: DaySource, options: DayOptions = {}) {
    this.#source = source;
    this.#leastWatchS = options.leastWatchS ?? 0;
    this.#nowS = options.startS ?? source.startS ?? 0;
    this.#newestS = this.#nowS;
    this.#write('record-opened', { record: 'virtual', format: 1, program: 'virtual day' });
    this.#write('test-opened', source.test);
    this.#write('simulation', source.simulation);
    for (const mounting of source.mountings) this.#write('mounting', mounting);
    for (const certificate of source.certificates) this.#write('certificate', certificate);
    this.watch = createWatch({
      instruments: source.mountings.map(({ instrument, label, settlingS }) => ({
        instrument,
        label,
        settlingS,
        refused: instrumentRefusal(this.session, instrument),
      })),
    });
  }

  get nowS(): number {
    return this.#nowS;
  }

  /** Zero, then every planned shift. Throws NoReading when a state cannot be read. */
  async run(): Promise<DayOutcome> {
    this.#source.order(this.#nowS, this.session);
    await this.#read();
    for (let shift = 0; shift < this.#source.test.plan.length; shift++) {
      await this.#shift();
      await this.#read();
    }
    return this.outcome();
  }

  outcome(): DayOutcome {
    return {
      session: this.session,
      result: resultOfSession(this.session),
      worldTimeS: this.#nowS,
      notUsed: this.notUsed,
      waitedS: this.waitedS,
      samples: Object.fromEntries([...this.#lanes].map(([stream, lane]) => [stream, lane.samples])),
    };
  }

  async pass(seconds: number): Promise<void> {
    const untilS = this.#nowS + seconds;
    while (this.#nowS < untilS) await this.#step(Math.min(STEP_S, untilS - this.#nowS));
  }

  async #shift(): Promise<void> {
    const moves = nextPlannedMoves(this.session);
    const places = new Map(Object.entries(this.session.weightsAt));
    for (const move of moves) places.set(move.weight, move.to);
    const { heelingMomentTM } = momentOfPlaces(this.#source.test.weights, places);
    const predicted = predictHeelOfSession(this.session, heelingMomentTM);
    this.watch.carrying(this.#nowS);
    this.#write('shift-begun', {
      state: this.session.states.length,
      moves: [...moves],
      heelingMomentTM,
      predictedHeelDeg: predicted?.heelDeg ?? null,
      predictedStandardErrorDeg: predicted?.standardErrorDeg ?? null,
    });
    this.#source.order(this.#nowS, this.session);
    await this.pass(2);
    while (this.#source.carrying(this.#nowS)) await this.#step(STEP_S);
    await this.pass(2);
    this.#write('weight-landed', { state: this.session.states.length - 1, landedS: this.#nowS });
  }

  /** As the receiver tells its watch whenever a reading is awaited. */
  #aim(): void {
    const target = stopTarget(this.session);
    if (target === null) return;
    this.#write('stop-target', target);
    this.watch.target(target.standardErrorDeg, target.missingDeg);
  }

  async #read(): Promise<void> {
    const sinceS = this.#nowS;
    const state = this.session.states.length - 1;
    this.#aim();
    this.watch.beginState(sinceS);
    while (this.#nowS - sinceS < MOST_WAIT_S) {
      await this.#step(STEP_S);
      if (this.#nowS - sinceS < this.#leastWatchS) continue;
      const atS = Math.min(this.#nowS, this.#newestS + MOST_AHEAD_S);
      if (!this.watch.picture(atS).joined.readable) continue;
      const taken = this.watch.takeReading(atS);
      this.#write('reading', {
        ...taken,
        state,
        estimator: ESTIMATOR,
        instruments: taken.instruments.map((one) => ({
          ...one,
          certificate: this.session.certificates.find((each) => each.instrument === one.instrument)!
            .number,
        })),
      });
      this.waitedS.push(this.#nowS - sinceS);
      return;
    }
    const why = this.watch.picture(this.#nowS).joined.whyNot;
    throw new NoReading(`state ${state}, ${MOST_WAIT_S} s: ${why}`);
  }

  async #step(seconds: number): Promise<void> {
    this.#nowS += seconds;
    for (const item of await this.#source.advance(this.#nowS)) this.#take(item);
    for (const one of this.watch.finished()) {
      this.notUsed.push(one);
      this.#write('disturbance', { ...one, instruments: copyOf(one.instruments) });
    }
  }

  #take(item: StreamItem): void {
    if (item.type === 'stream-opened')
      this.#lanes.set(item.stream, new StreamLane(item, this.#mounted()));
    else if (item.type === 'board-clock') {
      this.#lanes.get(item.stream)!.clock = item;
      for (const block of this.#waiting.splice(0)) this.#take(block);
    } else if (item.type === 'samples') {
      if (this.#lanes.get(item.stream)!.clock === null) this.#waiting.push(item);
      else this.#samples(item);
    }
  }

  #samples(block: SampleBlock): void {
    const lane = this.#lanes.get(block.stream)!;
    lane.samples += block.stepUs.length;
    const timesS = lane.timesOf(block);
    for (const { instrument, heelDeg } of lane.conversion.convert(block)) {
      const smoother = this.#smoothers.get(instrument) ?? new Smoother();
      this.#smoothers.set(instrument, smoother);
      for (const [sample, heel] of heelDeg.entries())
        for (const { atS, value } of smoother.push(timesS[sample]!, heel))
          this.#push(instrument, atS, value);
    }
  }

  #push(instrument: string, atS: number, heelDeg: number | null): void {
    this.#newestS = Math.max(this.#newestS, atS);
    this.watch.push(instrument, atS, heelDeg);
  }

  #mounted(): MountedInstrument[] {
    return this.#source.mountings.map((mounting) => ({
      mounting,
      certificate:
        this.#source.certificates.find((one) => one.instrument === mounting.instrument) ?? null,
    }));
  }

  #write<K extends LineKind>(kind: K, body: LineBody<K>): void {
    const line = {
      n: this.session.lines,
      kind,
      v: 1,
      prev: '0'.repeat(64),
      wall: '2026-11-25T09:00:00.000Z',
      receiverS: this.#nowS,
      author: 'virtual',
      role: 'simulator',
      body,
    } as unknown as Line;
    this.session = foldLine(this.session, line);
  }
}
