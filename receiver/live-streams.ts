import { Fault } from '#core/fault/fault.ts';
import { HeelConversion } from '#core/sample/heel.ts';
import type { MountedInstrument } from '#core/sample/indicated-heel.ts';
import { Shaking, type ShakingMark } from '#core/sample/shaking.ts';
import { Smoother } from '#core/sample/smoothing.ts';
import type { SampleBlock, StreamOpened } from '#core/sample/stream-item.ts';
import type { SessionState } from '#core/session/session.ts';
import type { BoardMap, TimeMap } from './time-map.ts';

/** Blocks of a stream that may wait for its clocks to be paired. */
const MOST_WAITING_BLOCKS = 64;
/** A stream whose times begin this far before what came last is another run: nothing is joined. */
const MOST_BACK_S = 5;

/** What became known of one instrument: smoothed heel at exact receiver times. */
export interface SmoothedHeel {
  readonly instrument: string;
  readonly atS: number[];
  readonly heelDeg: (number | null)[];
  /** Seconds that are over, as they shook before they were smoothed. */
  readonly shaking: ShakingMark[];
  /** The newest temperature of the chip, null when not read. */
  readonly temperatureC: number | null;
}

/** One instrument's samples on their way. */
interface Lane {
  readonly smoother: Smoother;
  readonly shaking: Shaking;
  lastS: number;
}

interface LiveStream {
  readonly opened: StreamOpened;
  closed: boolean;
  conversion: HeelConversion | null;
  /** The instruments it was made for. */
  mounted: readonly MountedInstrument[];
  waiting: WaitingBlock[];
}

/** A block whose clocks are not paired yet, with the map its board had when it came. */
export interface WaitingBlock {
  readonly block: SampleBlock;
  board: BoardMap | null;
}

/** Counts to smoothed heel for every open stream, in the order the record has them. */
export class LiveStreams {
  readonly #timeMap: TimeMap;
  readonly #streams = new Map<string, LiveStream>();
  readonly #smoothers = new Map<string, Lane>();
  #mounted: readonly MountedInstrument[] = [];
  #mountedFrom: readonly unknown[] = [];

  constructor(timeMap: TimeMap) {
    this.#timeMap = timeMap;
  }

  open(opened: StreamOpened): void {
    this.#streams.set(opened.stream, {
      opened,
      closed: false,
      conversion: null,
      mounted: [],
      waiting: [],
    });
  }

  /** From the next block on an instrument is smoothed as if it had just begun. */
  beginAnew(instrument: string): void {
    this.#smoothers.delete(instrument);
  }

  /** Nothing more comes of it; what waits for its clocks is still taken up when they are paired. */
  close(stream: string): void {
    const held = this.#streams.get(stream);
    if (held === undefined) return;
    held.closed = true;
    held.waiting = held.waiting.filter(({ board }) => board !== null);
    if (held.waiting.length === 0) this.#streams.delete(stream);
  }

  /** A block in its turn. Blocks that came before their clocks were paired are taken up first. */
  take(block: SampleBlock, session: SessionState): SmoothedHeel[] {
    const stream = this.#streams.get(block.stream);
    if (stream === undefined) return [];
    stream.waiting.push({ block, board: this.#timeMap.boardMap(block.stream) });
    if (stream.waiting.length > MOST_WAITING_BLOCKS) stream.waiting.shift();
    return this.#paired(stream, session);
  }

  /** Blocks whose clocks a line has just paired. */
  takeWaiting(session: SessionState): SmoothedHeel[] {
    const smoothed: SmoothedHeel[] = [];
    for (const stream of this.#streams.values()) {
      smoothed.push(...this.#paired(stream, session));
      if (stream.closed && stream.waiting.length === 0) this.#streams.delete(stream.opened.stream);
    }
    return smoothed;
  }

  #paired(stream: LiveStream, session: SessionState): SmoothedHeel[] {
    const smoothed: SmoothedHeel[] = [];
    for (;;) {
      const next = stream.waiting[0];
      if (next === undefined) return smoothed;
      next.board ??= this.#timeMap.boardMap(next.block.stream);
      const times = this.#timeMap.timesOf(next.block, next.board);
      if (times === null) return smoothed;
      stream.waiting.shift();
      smoothed.push(...this.#convert(stream, next.block, times.atS, session));
    }
  }

  /** A block whose times are known already. */
  takeTimed(block: SampleBlock, atS: Float64Array, session: SessionState): SmoothedHeel[] {
    const stream = this.#streams.get(block.stream);
    return stream === undefined ? [] : this.#convert(stream, block, atS, session);
  }

  #convert(
    stream: LiveStream,
    block: SampleBlock,
    atS: Float64Array,
    session: SessionState,
  ): SmoothedHeel[] {
    const conversion = this.#conversionOf(stream, session);
    return conversion.convert(block).map(({ instrument, heelDeg, temperatureC }) => {
      const smoothed: SmoothedHeel = {
        instrument,
        atS: [],
        heelDeg: [],
        shaking: [],
        temperatureC: temperatureC.findLast((value) => value !== null) ?? null,
      };
      const lane = this.#lane(instrument, atS[0] ?? 0);
      for (const [index, heel] of heelDeg.entries()) {
        lane.lastS = atS[index] ?? lane.lastS;
        lane.shaking.push(lane.lastS, heel);
        for (const sample of lane.smoother.push(lane.lastS, heel)) {
          smoothed.shaking.push(...lane.shaking.smoothed(sample));
          smoothed.atS.push(sample.atS);
          smoothed.heelDeg.push(sample.value);
        }
      }
      return smoothed;
    });
  }

  #lane(instrument: string, firstS: number): Lane {
    let lane = this.#smoothers.get(instrument);
    if (lane === undefined || firstS < lane.lastS - MOST_BACK_S) {
      lane = { smoother: new Smoother(), shaking: new Shaking(), lastS: firstS };
      this.#smoothers.set(instrument, lane);
    }
    return lane;
  }

  #conversionOf(stream: LiveStream, session: SessionState): HeelConversion {
    const mounted = this.#mountedNow(session);
    if (stream.conversion === null || stream.mounted !== mounted) {
      stream.conversion = conversionFor(stream.opened, mounted);
      stream.mounted = mounted;
    }
    return stream.conversion;
  }

  #mountedNow({ mountings, certificates }: SessionState): readonly MountedInstrument[] {
    if (this.#mountedFrom[0] !== mountings || this.#mountedFrom[1] !== certificates) {
      this.#mountedFrom = [mountings, certificates];
      this.#mounted = mountings.map((mounting) => ({
        mounting,
        certificate: certificates.find((one) => one.instrument === mounting.instrument) ?? null,
      }));
    }
    return this.#mounted;
  }
}

/** Of a stream that lacks a column an instrument needs, the others are still converted. */
function conversionFor(
  opened: StreamOpened,
  mounted: readonly MountedInstrument[],
): HeelConversion {
  const sound = mounted.filter((one) => {
    try {
      return new HeelConversion(opened, [one]) !== null;
    } catch (error) {
      if (error instanceof RangeError || error instanceof Fault) return false;
      throw error;
    }
  });
  return new HeelConversion(opened, sound);
}
