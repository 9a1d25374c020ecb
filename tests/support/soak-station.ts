import { randomBytes } from 'node:crypto';
import path from 'node:path';
import { BoardStreams } from '#device/board-streams.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';
import type { StationEvent } from '#device/events.ts';
import { StationIdentity } from '#device/identity.ts';
import { Link } from '#device/link.ts';
import { LinkSender } from '#device/link-sender.ts';
import { machineClock } from '#device/machine-clock.ts';
import { Spool } from '#device/spool.ts';
import { MOST_SPOOL_BYTES } from '#device/station.ts';
import {
  type FromSoakStation,
  MOST_PACE_ASKED,
  type SoakOpening,
  type SoakScan,
  type ToSoakStation,
} from './soak-messages.ts';

/**
 * A program: the board side from the scan on, with the parts a station is made of (streams,
 * samplers, clock maps, spool, sender, link), in a process of its own so that its memory can be
 * read. Scans come from the day over the process channel, and with them the station's time.
 */
const FLUSH_MS = 50;
const STATUS_EVERY_MS = 100;
const FINISH_WITHIN_MS = 60_000;
const LEAD_S = 0.004;

let nowS = 0;
const clock = { monotonicS: () => nowS, wallMs: () => Date.now() };

function say(message: FromSoakStation): void {
  process.send?.(message);
}

function report(event: StationEvent): void {
  if (event.event === 'fault') say({ type: 'fault', code: event.code, found: event.found });
}

/** Virtual seconds to one of the wall, over the last second or so. */
class PaceHeld {
  #fromMs = performance.now();
  #fromS = 0;
  value = 1;

  look(): number {
    const ms = performance.now();
    if (ms - this.#fromMs < 1000) return this.value;
    this.value = (nowS - this.#fromS) / ((ms - this.#fromMs) / 1000);
    this.#fromMs = ms;
    this.#fromS = nowS;
    return this.value;
  }
}

class SoakStation {
  readonly #spool: Spool;
  readonly #sender: LinkSender;
  readonly #link: Link;
  readonly #boards: ReadonlyMap<string, BoardStreams>;
  readonly #timers: NodeJS.Timeout[];
  readonly #pace = new PaceHeld();
  #samples = 0;
  #carrying: readonly string[] = [];
  #settledState = 0;

  private constructor(
    opening: SoakOpening,
    parts: {
      identity: StationIdentity;
      spool: Spool;
      run: string;
      boards: ReadonlyMap<string, BoardStreams>;
    },
  ) {
    this.#spool = parts.spool;
    this.#boards = parts.boards;
    this.#sender = new LinkSender({
      spool: this.#spool,
      nowMs: () => machineClock.monotonicS() * 1000,
      renew: (stream) => say({ type: 'fault', code: 'stream-conflict', found: stream }),
      damaged: (error) => say({ type: 'fault', code: 'spool-damaged', found: String(error) }),
    });
    this.#link = new Link({
      url: opening.receiverUrl,
      clocks: { station: clock, machine: machineClock },
      report,
      sender: this.#sender,
      hello: () => ({
        type: 'hello',
        version: 1,
        station: parts.identity.station,
        publicKey: parts.identity.publicKey,
        run: parts.run,
        mountings: [...opening.mountings],
        certificates: [...opening.certificates],
        simulated: opening.simulated,
      }),
      simulate: (order) => say({ type: 'simulate', order }),
    });
    this.#link.start();
    this.#timers = [
      setInterval(() => void this.#flush(), FLUSH_MS),
      setInterval(() => this.#status(), STATUS_EVERY_MS),
    ];
  }

  static async open(opening: SoakOpening): Promise<SoakStation> {
    const identity = await StationIdentity.open(opening.dataFolder);
    const { station } = identity;
    const run = randomBytes(6).toString('hex');
    const spool = await Spool.open({
      folder: path.join(opening.dataFolder, 'spool'),
      station,
      mostBytes: MOST_SPOOL_BYTES,
    });
    const boards = new Map<string, BoardStreams>();
    for (const { board, channels } of opening.boards) {
      const about = { boardIsOurs: true, resetCounter: 1, port: 'samples', firmware: 'none' };
      const { periodUs } = opening;
      const nextStream = (of: string) => identity.nextStream(of);
      boards.set(
        board,
        await BoardStreams.prepare(
          { station, run, board, ...about, periodUs, channels },
          { clock, sink: spool, report, nextStream },
          [],
        ),
      );
    }
    return new SoakStation(opening, { identity, spool, run, boards });
  }

  take(message: Extract<ToSoakStation, { type: 'scans' }>): void {
    for (const [board, scans] of Object.entries(message.scans))
      for (const scan of scans) this.#scan(board, scan);
    nowS = message.nowS;
    this.#carrying = message.carrying;
    this.#settledState = message.settledState;
    say({ type: 'taken', nowS, heldBytes: this.#spool.heldBytes });
  }

  unplug(board: string): void {
    this.#boards.get(board)?.close('board-lost');
  }

  async finish(): Promise<void> {
    for (const streams of this.#boards.values()) streams.close('wanted');
    await this.#flush();
    const untilMs = performance.now() + FINISH_WITHIN_MS;
    while (!this.#sender.done && performance.now() < untilMs)
      await new Promise((resolve) => setTimeout(resolve, FLUSH_MS));
    for (const timer of this.#timers) clearInterval(timer);
    say({ type: 'finished', samples: this.#samples, done: this.#sender.done });
    this.#link.stop();
  }

  #scan(board: string, { sequence, boardUs, arrivedS, counts }: SoakScan): void {
    nowS = arrivedS;
    const frame = {
      ...{ sequence, boardUs, durationUs: 800, failedSteps: 0, leftOut: 0, bus: 0 },
      ...{ boardStart: board, resetCounterLow: 1, bytes: new Uint8Array(0) },
    };
    const run = this.#boards.get(board)?.take() ?? null;
    const placed = run?.place(frame);
    if (run === null || placed?.kind !== 'next') {
      say({ type: 'fault', code: 'scan-lost', found: `${board} ${sequence} ${placed?.kind}` });
      return;
    }
    const read = counts.map((count) => ({ count, fault: null }));
    run.add(placed.time, frame, { counts: read, arrivedS, leadS: LEAD_S });
    this.#samples += 1;
  }

  async #flush(): Promise<void> {
    await this.#spool.flush();
    this.#sender.pump();
    if (this.#spool.failing !== null)
      say({ type: 'fault', code: 'spool-disk', found: this.#spool.failing.message });
  }

  #status(): void {
    this.#link.sendNow({
      type: 'simulation-status',
      stationS: nowS,
      paceAsked: MOST_PACE_ASKED,
      paceHeld: this.#pace.look(),
      disturbances: ALL_QUIET,
      carrying: [...this.#carrying],
      settledState: this.#settledState,
    });
  }
}

let station: SoakStation | null = null;

async function hear(message: ToSoakStation): Promise<void> {
  if (message.type === 'open') {
    station = await SoakStation.open(message);
    say({ type: 'ready' });
  } else if (message.type === 'scans') station?.take(message);
  else if (message.type === 'unplugged') station?.unplug(message.board);
  else {
    await station?.finish();
    process.disconnect();
  }
}

process.on('message', (message: ToSoakStation) => void hear(message));
