import { Fault, type FaultCode } from '#core/fault/fault.ts';
import type { Channel, StreamClosed } from '#core/sample/stream-item.ts';
import type { StationServices } from './board-session.ts';
import { BoardStreams } from './board-streams.ts';
import { ModbusFeed } from './drivers/modbus-feed.ts';
import { NmeaFeed } from './drivers/nmea-feed.ts';
import type { SerialFeed, SerialOpening, SerialSample } from './drivers/serial-feed.ts';
import type { Clocks } from './machine-clock.ts';
import type { SerialLine } from './serial-outfit.ts';
import { FaultTeller, SerialWatch } from './serial-watch.ts';
import { SilenceWatch } from './silence.ts';
import type { BoardPort, Transport } from './transport.ts';
import { opened, type WatchedTransport, watchTransport } from './transport-watch.ts';

const TICK_S = 0.02;
const SEQUENCE_MODULUS = 2 ** 16;
const MICROSECOND_MODULUS = 2 ** 32;
const MOST_UNTOLD = 32;

type End = Exclude<StreamClosed['reason'], 'board-reset'>;

/** One connection to one serial line with instruments that speak for themselves, until it is lost. */
export class SerialSession {
  readonly #transport: WatchedTransport;
  readonly #line: SerialLine;
  readonly #services: StationServices;
  readonly #feed: SerialFeed;
  readonly #teller: FaultTeller;
  readonly #ended: Promise<{ reason: End; why: string }>;
  #end!: (end: { reason: End; why: string }) => void;
  #streams: BoardStreams | null = null;
  #silence: SilenceWatch | null = null;
  #watches: { watch: SerialWatch; from: number; to: number; instrument: string }[] = [];
  #opening: SerialOpening | null = null;
  #untold: Fault[] = [];
  #sequence = 0;
  #startedS = 0;
  #lastUs = -1;

  private constructor(
    parts: { transport: WatchedTransport; feed: SerialFeed },
    line: SerialLine,
    services: StationServices,
  ) {
    this.#transport = parts.transport;
    this.#feed = parts.feed;
    this.#line = line;
    this.#services = services;
    this.#teller = new FaultTeller((fault) => this.#tell(fault));
    this.#ended = new Promise((resolve) => {
      this.#end = resolve;
    });
  }

  /** Opens the port. Rejects with `port-not-open`, `port-permission` or `port-in-use`. */
  static async open(
    port: BoardPort,
    line: SerialLine,
    services: StationServices,
  ): Promise<SerialSession> {
    const transport = port.open(line.baudRate);
    const watch = watchTransport(transport);
    await opened(transport, watch, port.name);
    const feed = feedOf(transport, line, services.clocks);
    return new SerialSession({ transport: watch, feed }, line, services);
  }

  get stream(): string | null {
    return this.#streams?.current?.stream ?? null;
  }

  /** Runs until the line is lost or `stop` is called. Rejects with a Fault when nothing answers. */
  async run(): Promise<End> {
    void this.#transport.lost.then((why) => this.#end({ reason: 'board-lost', why }));
    let ticker: NodeJS.Timeout | null = null;
    try {
      const proven = await Promise.race([
        this.#prepare(),
        this.#ended.then(() => 'ended' as const),
      ]);
      if (proven !== 'ended') {
        ticker = setInterval(() => this.#tick(), TICK_S * 1000);
        this.#feed.start();
      }
      const { reason, why } = await this.#ended;
      if (reason !== 'wanted') this.#tell(new Fault('board-lost', this.#where, why));
      this.#streams?.close(reason);
      return reason;
    } finally {
      if (ticker !== null) clearInterval(ticker);
      this.#feed.stop();
      this.#streams?.close('board-lost');
      await this.#transport.close();
    }
  }

  stop(): void {
    this.#end({ reason: 'wanted', why: '' });
  }

  /** Ends the stream and opens another on the same connection. */
  renew(): void {
    this.#streams?.close('wanted');
    this.#streams?.take();
  }

  get #where(): string {
    return `${this.#line.port} ${this.#line.name}`;
  }

  async #prepare(): Promise<void> {
    const { clocks, report } = this.#services;
    const opening = await this.#feed.prove({
      sample: (sample) => this.#receive(sample),
      tell: (fault) => this.#teller.tell(fault, clocks.station.monotonicS()),
    });
    this.#opening = opening;
    const { port, name: board } = this.#line;
    report({ event: 'board', port, board, firmware: opening.firmware });
    this.#watches = this.#watchesOf(opening.channels);
    this.#silence = new SilenceWatch(opening.periodUs, TICK_S);
    this.#startedS = clocks.station.monotonicS();
    this.#streams = await this.#streamsWith(opening);
    this.#streams.take();
  }

  #streamsWith({ channels, periodUs, firmware }: SerialOpening): Promise<BoardStreams> {
    const { station, run, clocks, jumps, sink, report } = this.#services;
    const nextStream = (board: string) => this.#services.nextStream(board);
    const { port, name: board } = this.#line;
    return BoardStreams.prepare(
      {
        station,
        run,
        board,
        boardIsOurs: false,
        resetCounter: 0,
        port,
        firmware,
        periodUs,
        channels,
      },
      { clock: clocks.station, jumps, sink, report, nextStream },
      this.#untold.splice(0),
    );
  }

  #watchesOf(channels: readonly Channel[]) {
    return this.#line.instruments.map(({ instrument, mounting, stuckAfterS }) => {
      const from = channels.findIndex((one) => one.instrument === instrument);
      const own = channels.filter((one) => one.instrument === instrument);
      const where = `${this.#where} ${instrument}`;
      const watch = new SerialWatch(own, { where, spanM: mounting.spanM, stuckAfterS });
      return { watch, from, to: from + own.length, instrument };
    });
  }

  #receive({ counts, atS, leftOut }: SerialSample): void {
    const { clocks, jumps } = this.#services;
    const arrivedS = clocks.station.monotonicS();
    jumps.look();
    this.#silence?.heard();
    const watched = this.#watches.map(({ watch, from, to }) =>
      watch.look(counts.slice(from, to), atS),
    );
    for (const fault of watched.flatMap(({ faults }) => faults)) this.#teller.tell(fault, arrivedS);
    const stream = this.#streams?.take();
    // Two that came in one piece keep their order.
    const passedUs = Math.max(this.#lastUs + 1, Math.round((atS - this.#startedS) * 1e6));
    this.#lastUs = passedUs;
    const frame = {
      sequence: this.#sequence % SEQUENCE_MODULUS,
      boardUs: passedUs % MICROSECOND_MODULUS,
      leftOut,
    };
    this.#sequence += 1;
    const placed = stream?.place(frame);
    if (placed?.kind === 'next') {
      const scan = {
        counts: watched.flatMap((one) => one.counts),
        arrivedS,
        leadS: Math.max(0, arrivedS - (this.#startedS + passedUs * 1e-6)),
      };
      stream!.add(placed.time, frame, scan);
    } else if (placed?.kind === 'broken') this.#streams?.close('silence');
    this.#mindSteps(counts);
  }

  /** An instrument that moves in coarser steps than stated is said to, from a new stream on. */
  #mindSteps(counts: readonly { count: number | null; fault: FaultCode | null }[]): void {
    for (const { watch, from, to, instrument } of this.#watches) {
      const coarser = watch.coarserStep(counts.slice(from, to));
      if (coarser === null || this.#opening === null) continue;
      const { quantity, step } = coarser;
      const channels = this.#opening.channels.map((one) =>
        one.instrument === instrument && one.quantity === quantity && one.counted !== undefined
          ? { ...one, counted: { ...one.counted, step } }
          : one,
      );
      this.#opening = { ...this.#opening, channels };
      this.#watches = this.#watchesOf(channels);
      const where = `${this.#where} ${instrument}`;
      this.#tell(new Fault('serial-coarse', where, `${quantity} moves in steps of ${step}`));
      this.#streams?.reopen(channels);
      return;
    }
  }

  #tick(): void {
    const { station, machine } = this.#services.clocks;
    this.#services.jumps.look();
    if (this.#silence?.tick(station.monotonicS(), machine.monotonicS()))
      this.#end({ reason: 'board-lost', why: 'no reading arrives' });
  }

  #tell(fault: Fault): void {
    if (this.#streams !== null) this.#streams.tell(fault);
    else if (this.#untold.length < MOST_UNTOLD) this.#untold.push(fault);
    this.#services.report({ event: 'fault', ...fault.report });
  }
}

/** What speaks the protocol of a line. */
export function feedOf(transport: Transport, line: SerialLine, clocks: Clocks): SerialFeed {
  return line.protocol === 'nmea-0183'
    ? new NmeaFeed(transport, line, clocks.station)
    : new ModbusFeed(transport, line, clocks);
}
