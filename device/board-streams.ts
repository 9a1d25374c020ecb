import { Fault } from '#core/fault/fault.ts';
import type { Channel, StreamClosed } from '#core/sample/stream-item.ts';
import type { Clock } from '#core/time/clock.ts';
import type { ClockJumps } from './clock-jumps.ts';
import type { Report } from './events.ts';
import { type StreamOpening, StreamRun } from './stream-run.ts';
import { type ItemSink, StreamWriter } from './stream-writer.ts';

const FETCH_AGAIN_MS = 1000;
const MOST_UNTOLD = 32;

export interface StreamServices {
  readonly clock: Clock;
  readonly jumps: ClockJumps;
  readonly sink: ItemSink;
  readonly report: Report;
  /** A stream's name that was never used and never will be again. */
  nextStream(board: string): Promise<string>;
}

/** The streams of one connection, one after another; faults go into the one that is open, or the next. */
export class BoardStreams {
  #opening: StreamOpening;
  readonly #services: StreamServices;
  #current: StreamRun | null = null;
  /** Fetched beforehand, so that a stream opens between two scans. */
  #nextName: string | null = null;
  #lostScans = 0;
  #untold: Fault[];

  private constructor(opening: StreamOpening, services: StreamServices, untold: Fault[]) {
    this.#opening = opening;
    this.#services = services;
    this.#untold = untold;
  }

  /** @param untold faults found before there could be a stream */
  static async prepare(
    opening: StreamOpening,
    services: StreamServices,
    untold: readonly Fault[],
  ): Promise<BoardStreams> {
    const streams = new BoardStreams(opening, services, [...untold]);
    await streams.#fetchName();
    return streams;
  }

  get current(): StreamRun | null {
    return this.#current;
  }

  /** The stream to write to, opened if none is; null, and one scan lost, when there is no room for it. */
  take(): StreamRun | null {
    this.#current ??= this.#open();
    if (this.#current === null) this.#lostScans += 1;
    return this.#current;
  }

  close(reason: StreamClosed['reason']): void {
    const stream = this.#current;
    if (stream === null) return;
    this.#current = null;
    stream.close(reason);
    this.#services.report({ event: 'stream-closed', stream: stream.stream, reason });
  }

  /** What the columns are has changed: the stream ends, and another begins with the next sample. */
  reopen(channels: readonly Channel[]): void {
    this.close('wanted');
    this.#opening = { ...this.#opening, channels };
  }

  tell(fault: Fault): void {
    if (this.#current !== null) this.#current.fault(fault);
    else if (this.#untold.length < MOST_UNTOLD) this.#untold.push(fault);
  }

  #open(): StreamRun | null {
    const name = this.#nextName;
    if (name === null) return null;
    const { sink, clock, jumps, report } = this.#services;
    const writer = new StreamWriter(name, sink, clock);
    const stream = StreamRun.open(writer, this.#opening, { clock, jumps });
    if (stream === null) return null;
    this.#nextName = null;
    void this.#fetchName();
    const { channels, periodUs } = this.#opening;
    report({ event: 'stream', stream: name, channels: channels.length, periodUs });
    if (this.#lostScans > 0) {
      this.#untold.push(new Fault('spool-full', name, `${this.#lostScans} scans lost`));
      this.#lostScans = 0;
    }
    for (const fault of this.#untold.splice(0)) stream.fault(fault);
    return stream;
  }

  async #fetchName(): Promise<void> {
    try {
      this.#nextName = await this.#services.nextStream(this.#opening.board);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.#services.report({ event: 'fault', ...error.report });
      setTimeout(() => void this.#fetchName(), FETCH_AGAIN_MS).unref();
    }
  }
}
