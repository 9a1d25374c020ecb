import { Fault, type FaultCode } from '#core/fault/fault.ts';
import type { StreamClosed } from '#core/sample/stream-item.ts';
import type { ConnectedBoard } from './board.ts';
import { BoardStreams } from './board-streams.ts';
import { ContinuousFeed } from './bus/continuous-feed.ts';
import { FirmataBus } from './bus/firmata-bus.ts';
import { ScanBus } from './bus/scan-bus.ts';
import type { ScanFeed } from './bus/scan-feed.ts';
import type { BoardIdentity, ScanFrame } from './bus/scan-message.ts';
import { ChipSet } from './chip-set.ts';
import type { ClockJumps } from './clock-jumps.ts';
import type { Report } from './events.ts';
import type { Clocks } from './machine-clock.ts';
import { checkCompany, type ExpectedChip, findChips } from './outfit.ts';
import { SilenceWatch } from './silence.ts';
import type { ItemSink } from './stream-writer.ts';
import type { ScanTime } from './unwrap.ts';

/** What StandardFirmata's line and a host's answers bear. */
const FOREIGN_PERIOD_US = 50_000;
const TICK_S = 0.02;
/** Bits on the line for one byte; bytes of a frame beside those read: 19 of body, and F0 0A 42 F7. */
const BITS_A_BYTE = 10;
const FRAME_BODY_BYTES = 19;
const FRAME_ENVELOPE_BYTES = 4;

type Reason = StreamClosed['reason'];
const FAULT_OF_END: Record<Exclude<Reason, 'wanted'>, FaultCode> = {
  'board-lost': 'board-lost',
  silence: 'board-lost',
  'board-reset': 'board-reset',
};

/** What a session needs of the station around it. */
export interface StationServices {
  readonly station: string;
  readonly run: string;
  readonly clocks: Clocks;
  /** Watched by every session of the station, so that a jump is seen however few boards answer. */
  readonly jumps: ClockJumps;
  readonly sink: ItemSink;
  readonly report: Report;
  /** Between two scans of a board with our firmware. */
  readonly scanPeriodUs: number;
  nextStream(board: string): Promise<string>;
  /** Chips named for a board; null: look for them. */
  expected(board: string, port: string): ExpectedChip[] | null;
  /** What to call a board without our firmware. */
  nameOf(port: string): string;
}

/** One connection to one board, from its introduction until it is lost or no longer wanted. */
export class BoardSession {
  readonly #connected: ConnectedBoard;
  readonly #port: string;
  readonly #services: StationServices;
  readonly #periodUs: number;
  readonly #silence: SilenceWatch;
  readonly #ended: Promise<{ reason: Reason; why: string }>;
  #end!: (end: { reason: Reason; why: string }) => void;
  #identity: BoardIdentity | null = null;
  #chips: ChipSet | null = null;
  #streams: BoardStreams | null = null;
  #untold: Fault[] = [];
  #spoiledScans = 0;

  constructor(connected: ConnectedBoard, port: string, services: StationServices) {
    this.#connected = connected;
    this.#port = port;
    this.#services = services;
    this.#periodUs = connected.isOurs ? services.scanPeriodUs : FOREIGN_PERIOD_US;
    this.#silence = new SilenceWatch(this.#periodUs, TICK_S);
    this.#ended = new Promise((resolve) => {
      this.#end = resolve;
    });
  }

  /** The stream being written, or null. */
  get stream(): string | null {
    return this.#streams?.current?.stream ?? null;
  }

  /**
   * Runs until the board is lost or `stop` is called; the stream and the port are closed then.
   * Rejects with a Fault when the board cannot be used.
   */
  async run(): Promise<Reason> {
    void this.#connected.lost.then((why) => this.#end({ reason: 'board-lost', why }));
    let ticker: NodeJS.Timeout | null = null;
    try {
      const feed = await this.#prepare();
      ticker = setInterval(() => this.#tick(), TICK_S * 1000);
      const { reason, why } = await this.#ended;
      if (reason === 'wanted') await feed.stop().catch(() => undefined);
      else this.#tell(new Fault(FAULT_OF_END[reason], this.#where, why));
      this.#streams?.close(reason);
      return reason;
    } finally {
      if (ticker !== null) clearInterval(ticker);
      this.#streams?.close('board-lost');
      await this.#connected.close();
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

  get #board(): string {
    return this.#identity?.board ?? this.#services.nameOf(this.#port);
  }

  get #where(): string {
    return `${this.#port} ${this.#board}`;
  }

  async #prepare(): Promise<ScanFeed> {
    const { io, isOurs, firmware } = this.#connected;
    const feed = isOurs ? await this.#scanFeed() : this.#continuousFeed();
    const board = this.#board;
    this.#services.report({ event: 'board', port: this.#port, board, firmware });
    const bus = new FirmataBus(io, this.#where);
    const expected = this.#services.expected(board, this.#port) ?? (await findChips(bus, board));
    checkCompany(expected, this.#where);
    if (expected.length === 0) throw new Fault('bus-no-answer', this.#where, 'no known chip');
    const chips = new ChipSet(expected, {
      bus,
      clock: this.#services.clocks.station,
      where: this.#where,
      periodUs: this.#periodUs,
      // A round the host asks for ends somewhere in its period: a conversion has half of it.
      stepUs: isOurs ? this.#periodUs : this.#periodUs / 2,
      tell: (fault) => this.#tell(fault),
    });
    this.#chips = chips;
    await chips.configure();
    this.#streams = await this.#prepareStreams(chips);
    await feed.start(chips.plan, this.#periodUs);
    if (this.#streams.current === null) this.#streams.take();
    // A board introduces itself unasked only when it begins anew.
    io.on('queryfirmware', () => {
      this.#end({ reason: 'board-reset', why: 'it introduced itself again' });
    });
    return feed;
  }

  async #scanFeed(): Promise<ScanFeed> {
    const feed = new ScanBus(this.#connected.io, this.#port, {
      frame: (frame) => this.#receive(frame),
      malformed: (fault) => this.#spoiled(fault),
    });
    this.#identity = await feed.identify();
    return feed;
  }

  #continuousFeed(): ScanFeed {
    const { io, firmware } = this.#connected;
    this.#tell(new Fault('board-not-ours', this.#where, firmware || 'no name'));
    return new ContinuousFeed(io, this.#services.clocks.station, {
      frame: (frame) => this.#receive(frame),
    });
  }

  #prepareStreams(chips: ChipSet): Promise<BoardStreams> {
    const { station, run, clocks, jumps, sink, report } = this.#services;
    const opening = {
      station,
      run,
      board: this.#board,
      boardIsOurs: this.#connected.isOurs,
      resetCounter: this.#identity?.resetCounter ?? 0,
      port: this.#port,
      firmware: this.#connected.firmware,
      periodUs: this.#periodUs,
      channels: chips.channels,
    };
    const nextStream = (board: string) => this.#services.nextStream(board);
    const services = { clock: clocks.station, jumps, sink, report, nextStream };
    return BoardStreams.prepare(opening, services, this.#untold);
  }

  #receive(frame: ScanFrame): void {
    const arrivedS = this.#services.clocks.station.monotonicS();
    this.#services.jumps.look();
    this.#silence.heard();
    if (this.#isOfAnotherStart(frame)) {
      this.#end({ reason: 'board-reset', why: `frame of start ${frame.resetCounterLow}` });
      return;
    }
    const placed = this.#streams?.take()?.place(frame);
    if (placed?.kind === 'next') {
      this.#write(frame, placed.time, arrivedS);
    } else if (placed?.kind === 'broken') {
      this.#tell(new Fault(FAULT_OF_END[placed.reason], this.#where, placed.why));
      this.#streams?.close(placed.reason);
      // The first frame of a stream is never broken.
      this.#receive(frame);
    }
  }

  #write(frame: ScanFrame, time: ScanTime, arrivedS: number): void {
    const counts = this.#chips?.counts(frame, arrivedS) ?? null;
    if (counts === null) {
      const found = `${frame.bytes.length} bytes are not what was asked for`;
      this.#spoiled(new Fault('scan-malformed', this.#where, found));
      return;
    }
    const scan = { counts, arrivedS, leadS: this.#leadS(frame) };
    this.#streams?.current?.add(time, frame, scan);
  }

  /** From the tick of a scan to the last byte of its frame: the bus, then the line. */
  #leadS(frame: ScanFrame): number {
    if (this.#identity === null) return 0;
    const bodyBytes = FRAME_BODY_BYTES + frame.bytes.length;
    const lineBytes = Math.ceil((bodyBytes * 8) / 7) + FRAME_ENVELOPE_BYTES;
    return frame.durationUs * 1e-6 + (lineBytes * BITS_A_BYTE) / this.#connected.baudRate;
  }

  #isOfAnotherStart(frame: ScanFrame): boolean {
    const identity = this.#identity;
    if (identity === null) return false;
    return (
      !identity.board.startsWith(frame.boardStart) ||
      frame.resetCounterLow !== identity.resetCounter % 2 ** 16
    );
  }

  /** One spoiled message loses one scan; the sequence shows it, and it is told of now and then. */
  #spoiled(fault: Fault): void {
    this.#spoiledScans += 1;
    if (Math.log10(this.#spoiledScans) % 1 === 0) this.#tell(fault);
  }

  #tick(): void {
    const { station, machine } = this.#services.clocks;
    this.#services.jumps.look();
    this.#chips?.tick(station.monotonicS());
    if (this.#silence.tick(station.monotonicS(), machine.monotonicS())) {
      this.#end({ reason: 'board-lost', why: 'no scan arrives' });
    }
  }

  /** Into the stream, or the first one, and to the person who runs the station. */
  #tell(fault: Fault): void {
    if (this.#streams === null) this.#untold.push(fault);
    else this.#streams.tell(fault);
    this.#services.report({ event: 'fault', ...fault.report });
  }
}
