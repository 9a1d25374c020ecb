import type { FaultCode } from '#core/fault/fault.ts';
import {
  type BoardClock,
  MOST_ITEM_BYTES,
  type SampleBlock,
  type StreamClosed,
  type StreamItem,
  type StreamOpened,
  streamItem,
} from '#core/sample/stream-item.ts';
import type { Clock } from '#core/time/clock.ts';

/** Where the items of a stream go: the spool. */
export interface ItemSink {
  /**
   * Takes one item for good, or answers false when it has no room; then the item counts as never
   * made and its number is used again. `urgent` items (openings, faults, closings) may use the
   * room kept back for them.
   */
  take(item: StoredItem, urgent: boolean): boolean;
}

/** An item as the bytes that are spooled, sent and recorded. */
export interface StoredItem {
  readonly stream: string;
  readonly number: number;
  readonly bytes: Buffer;
  /** The closing of its stream: nothing follows. */
  readonly closes: boolean;
}

type Body<T> = T extends StreamItem ? Omit<T, 'stream' | 'number' | 'v'> : never;

/**
 * Numbers the items of one stream without a hole and makes their bytes, once. When the sink has no
 * room, whole blocks are lost, counted, and said as soon as there is room again.
 */
export class StreamWriter {
  readonly stream: string;
  readonly #sink: ItemSink;
  readonly #clock: Clock;
  #next = 0;
  #lostSamples = 0;
  #toldLost = 0;
  #closed = false;

  constructor(stream: string, sink: ItemSink, clock: Clock) {
    this.stream = stream;
    this.#sink = sink;
    this.#clock = clock;
  }

  /** Samples lost so far for want of room and not yet told of. */
  get lostSamples(): number {
    return this.#lostSamples;
  }

  /** Item 0. Answers false when the sink has no room even for this: then there is no stream. */
  open(body: Body<StreamOpened>): boolean {
    return this.#put(body, true);
  }

  samples(body: Body<SampleBlock>): void {
    if (this.#lostSamples > 0) this.#tellLoss(false);
    if (this.#put(body, false)) return;
    this.#lostSamples += body.stepUs.length;
    if (this.#lostSamples >= this.#toldLost) this.#tellLoss(true);
  }

  clock(body: Omit<Body<BoardClock>, 'type'>): void {
    // A clock map that finds no room is no loss: the next one says the same and more.
    this.#put({ type: 'board-clock', ...body }, false);
  }

  fault(code: FaultCode, where: string, found: string, urgent = true): boolean {
    return this.#put(
      {
        type: 'stream-fault',
        code,
        where: where.slice(0, 200),
        found: found.slice(0, 500),
        stationS: this.#clock.monotonicS(),
      },
      urgent,
    );
  }

  close(reason: StreamClosed['reason']): void {
    if (this.#closed) return;
    if (this.#lostSamples > 0) this.#tellLoss(true);
    const body = {
      type: 'stream-closed',
      reason,
      closedStationS: this.#clock.monotonicS(),
    } as const;
    this.#put(body, true);
    this.#closed = true;
  }

  /**
   * With the room kept back at the first loss, when as many more are lost as were told of, and at
   * the end: a program killed in a long want of room has told of half of it at least, in few items.
   */
  #tellLoss(urgent: boolean): void {
    const found = `${this.#lostSamples} samples lost`;
    if (!this.fault('spool-full', this.stream, found, urgent)) return;
    this.#toldLost += this.#lostSamples;
    this.#lostSamples = 0;
  }

  #put(body: Body<StreamItem>, urgent: boolean): boolean {
    if (this.#closed) return false;
    const { type, ...rest } = body;
    const item = streamItem.parse({
      type,
      stream: this.stream,
      number: this.#next,
      v: 1,
      ...rest,
    });
    const bytes = Buffer.from(JSON.stringify(item), 'utf8');
    if (bytes.length > MOST_ITEM_BYTES) {
      throw new RangeError(`item of ${bytes.length} bytes in ${this.stream}`);
    }
    const stored = {
      stream: this.stream,
      number: this.#next,
      bytes,
      closes: item.type === 'stream-closed',
    };
    if (!this.#sink.take(stored, urgent)) return false;
    this.#next += 1;
    return true;
  }
}
