import { Fault } from '#core/fault/fault.ts';
import { connectBoard } from './board.ts';
import { BoardSession, type StationServices } from './board-session.ts';
import type { Report } from './events.ts';
import type { SerialLine } from './serial-outfit.ts';
import { SerialSession } from './serial-session.ts';
import type { BoardPort } from './transport.ts';

const FIRST_RETRY_MS = 500;
const LONGEST_RETRY_MS = 1000;

/** One connection, from its opening until it is lost or no longer wanted. */
export interface KeptSession {
  readonly stream: string | null;
  run(): Promise<unknown>;
  stop(): void;
  renew(): void;
}

/** What is behind a port, and how a connection to it begins. */
export type Connect = (baudRate: number) => Promise<KeptSession>;

export function boardConnect(port: BoardPort, services: StationServices): Connect {
  return async (baudRate) =>
    new BoardSession(await connectBoard(port, baudRate), port.name, services);
}

export function serialConnect(
  port: BoardPort,
  line: SerialLine,
  services: StationServices,
): Connect {
  return () => SerialSession.open(port, line, services);
}

/**
 * Keeps one port: opens it, runs what is behind it, and begins again with new objects whenever
 * it is lost (an old port or board object is never used again). Ends only when stopped.
 */
export class PortKeeper {
  readonly #port: BoardPort;
  readonly #connect: Connect;
  readonly #report: Report;
  #session: KeptSession | null = null;
  #stopped = false;
  #wake: (() => void) | null = null;
  #running: Promise<void> | null = null;
  #lastTold = '';
  #baudRate: number | null = null;
  #attempt = 0;

  constructor(port: BoardPort, connect: Connect, report: Report) {
    this.#port = port;
    this.#connect = connect;
    this.#report = report;
  }

  get stream(): string | null {
    return this.#session?.stream ?? null;
  }

  start(): void {
    this.#running ??= this.#keep();
  }

  /** Ends the stream as wanted and closes the port. */
  async stop(): Promise<void> {
    this.#stopped = true;
    this.#session?.stop();
    this.#wake?.();
    await this.#running;
  }

  renew(): void {
    this.#session?.renew();
  }

  async #keep(): Promise<void> {
    let retryMs = FIRST_RETRY_MS;
    while (!this.#stopped) {
      const began = await this.#once();
      retryMs = began ? FIRST_RETRY_MS : Math.min(LONGEST_RETRY_MS, retryMs * 1.5);
      if (!this.#stopped) await this.#pause(retryMs);
    }
  }

  /** One connection; true when a board was there. */
  async #once(): Promise<boolean> {
    const rates = this.#port.baudRates;
    // The rate a board was once found at comes first; the others are tried in turn.
    const baudRate = this.#baudRate ?? rates[this.#attempt % rates.length]!;
    this.#attempt += 1;
    try {
      const session = await this.#connect(baudRate);
      this.#baudRate = baudRate;
      this.#session = session;
      if (this.#stopped) session.stop();
      await session.run();
      this.#lastTold = '';
      return true;
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      if (error.code === 'board-silent') this.#baudRate = null;
      this.#tellOnce(error);
      return false;
    } finally {
      this.#session = null;
    }
  }

  /** A port without a board fails twice a second: the same fault is told once. */
  #tellOnce(fault: Fault): void {
    if (this.#lastTold === fault.message) return;
    this.#lastTold = fault.message;
    this.#report({ event: 'fault', ...fault.report });
  }

  #pause(ms: number): Promise<void> {
    return new Promise((resolve) => {
      const timer = setTimeout(done, ms);
      this.#wake = done;
      function done(): void {
        clearTimeout(timer);
        resolve();
      }
    });
  }
}
