import type { Firmata } from 'firmata-io';
import { Fault } from '#core/fault/fault.ts';
import type { ScanPlan } from '../scan-plan.ts';
import type { FrameListener, ScanFeed } from './scan-feed.ts';
import {
  type BoardIdentity,
  clearMessage,
  MOST_STEPS,
  nameMessage,
  queryMessage,
  readScanReply,
  SCAN_COMMAND,
  type ScanReply,
  type ScanState,
  SHORTEST_PERIOD_US,
  STATE_WORDS,
  startMessage,
  stepMessage,
  stepsCheck,
  stopMessage,
} from './scan-message.ts';

const REPLY_WITHIN_MS = 1500;

export interface ScanListener extends FrameListener {
  /** A message that could not be read; the scan goes on. */
  malformed(fault: Fault): void;
}

/** firmata-io keeps one table of handlers for all boards of the process, so ours is put in once. */
const receivers = new WeakMap<Firmata, (data: number[]) => void>();
let registered = false;

function receiveFor(io: Firmata, receiver: (data: number[]) => void): void {
  receivers.set(io, receiver);
  if (registered) return;
  registered = true;
  io.sysexResponse(SCAN_COMMAND, function (this: Firmata, data) {
    receivers.get(this)?.(data);
  });
}

/** The scan of one board that runs our firmware: who it is, what to read, the frames. */
export class ScanBus implements ScanFeed {
  readonly #io: Firmata;
  readonly #where: string;
  readonly #listener: ScanListener;
  #waiting: ((reply: ScanReply) => boolean) | null = null;

  constructor(io: Firmata, where: string, listener: ScanListener) {
    this.#io = io;
    this.#where = where;
    this.#listener = listener;
    receiveFor(io, (data) => {
      this.#receive(data);
    });
  }

  /** Rejects with `board-lost` when the board does not say who it is in time. */
  async identify(): Promise<BoardIdentity> {
    return this.#ask(queryMessage(), (reply) =>
      reply.kind === 'identity' ? reply.identity : null,
    );
  }

  async rename(name: string): Promise<BoardIdentity> {
    return this.#ask(nameMessage(name), (reply) =>
      reply.kind === 'identity' ? reply.identity : null,
    );
  }

  /**
   * Gives the board its list and starts it; resolves when the board has said that it has the list
   * whole and runs. Rejects with `scan-malformed` or `board-lost`.
   */
  async start({ steps }: ScanPlan, periodUs: number): Promise<void> {
    if (steps.length < 1 || steps.length > MOST_STEPS || periodUs < SHORTEST_PERIOD_US) {
      throw new RangeError(`${steps.length} steps every ${periodUs} us`);
    }
    this.#io.sysexCommand(clearMessage());
    for (const step of steps) this.#io.sysexCommand(stepMessage(step));
    const state = await this.#askState(startMessage(periodUs));
    if (
      state.state !== 0 ||
      state.stepsCheck !== stepsCheck(steps) ||
      state.periodUs !== periodUs
    ) {
      const word = STATE_WORDS[state.state] ?? `state ${state.state}`;
      throw new Fault(
        'scan-malformed',
        this.#where,
        `the board answers: ${word}, ${state.steps} steps`,
      );
    }
  }

  async stop(): Promise<void> {
    await this.#askState(stopMessage());
  }

  #askState(message: number[]): Promise<ScanState> {
    return this.#ask(message, (reply) => (reply.kind === 'state' ? reply.state : null));
  }

  #ask<T>(message: number[], pick: (reply: ScanReply) => T | null): Promise<T> {
    if (this.#waiting !== null) throw new Error('one question at a time');
    return new Promise<T>((resolve, reject) => {
      const timer = setTimeout(() => {
        this.#waiting = null;
        reject(new Fault('board-lost', this.#where, `no answer in ${REPLY_WITHIN_MS} ms`));
      }, REPLY_WITHIN_MS);
      this.#waiting = (reply) => {
        const picked = pick(reply);
        if (picked === null) return false;
        clearTimeout(timer);
        this.#waiting = null;
        resolve(picked);
        return true;
      };
      this.#io.sysexCommand(message);
    });
  }

  #receive(data: number[]): void {
    let reply: ScanReply;
    try {
      reply = readScanReply(data, this.#where);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.#listener.malformed(error);
      return;
    }
    if (reply.kind === 'frame') this.#listener.frame(reply.frame);
    else this.#waiting?.(reply);
  }
}
