import type { WebSocket } from 'ws';
import { z } from 'zod';
import { Fault, type FaultCode } from '#core/fault/fault.ts';
import { admitted, notAdmitted } from '#core/wire/access-message.ts';
import {
  type FromReceiver,
  type FromStation,
  fromReceiver,
  type Simulate,
} from '#core/wire/link-message.ts';
import type { Report } from './events.ts';
import type { LinkSender } from './link-sender.ts';
import type { Clocks } from './machine-clock.ts';
import { openPinnedSocket } from './pinned-socket.ts';
import { knownCode, readMessage } from './read-message.ts';
import type { ReceiverAccess } from './receiver-access.ts';

/** All on the machine's clock: a paced demo does not make sockets faster. */
const FIRST_RETRY_MS = 250;
export const USUAL_SILENT_AFTER_S = 10;
/** Parts of that: how often times are exchanged, how long a welcome may take, and the longest wait before a new try. */
const EXCHANGES_IN_SILENCE = 5;
const WELCOMES_IN_SILENCE = 2;
const RETRIES_IN_SILENCE = 2;
/** The first exchanges come quicker, so that a clock pairing exists soon. */
const QUICK_EXCHANGES = 5;
const QUICK_EXCHANGE_EVERY_S = 0.4;
const TICK_MS = 100;
/** Malformed messages are told of this often in one connection, then counted silently. */
const MOST_COMPLAINTS = 20;

export interface LinkSettings {
  readonly url: string;
  readonly clocks: Clocks;
  readonly report: Report;
  readonly sender: LinkSender;
  readonly access: ReceiverAccess;
  /** What this station says of itself at each connection; the challenge is what it was admitted with. */
  hello(challenge: string): FromStation;
  /** Machine seconds after which a silent receiver is given up and looked for anew. */
  readonly silentAfterS?: number;
  simulate(order: Simulate): void;
  /** The greeting was accepted. */
  welcomed?(): void;
}

/**
 * The connection to the receiver: greets, lets the sender send what is not acknowledged, exchanges
 * times, and begins again by itself whatever happens to it. Nothing that comes in can stop a stream.
 */
export class Link {
  readonly #settings: LinkSettings;
  readonly #silentAfterS: number;
  #socket: WebSocket | null = null;
  #timer: NodeJS.Timeout | null = null;
  #retry: NodeJS.Timeout | null = null;
  #retryMs = FIRST_RETRY_MS;
  #stopped = false;
  #admitted = false;
  #welcomed = false;
  #heardS = 0;
  #openedS = 0;
  #exchangedS = 0;
  #exchanges = 0;
  #returnedStationS: number | null = null;
  #complaints = 0;
  #lostTold = false;

  constructor(settings: LinkSettings) {
    this.#settings = settings;
    this.#silentAfterS = settings.silentAfterS ?? USUAL_SILENT_AFTER_S;
  }

  start(): void {
    this.#timer = setInterval(() => this.#tick(), TICK_MS);
    this.#connect();
  }

  stop(): void {
    this.#stopped = true;
    if (this.#timer !== null) clearInterval(this.#timer);
    if (this.#retry !== null) clearTimeout(this.#retry);
    this.#settings.sender.disconnected();
    this.#socket?.close(1000);
    this.#socket = null;
  }

  /** Sends a message that is worth nothing later; it is left out when there is no connection. */
  sendNow(message: FromStation): void {
    if (this.#welcomed && this.#socket !== null && this.#settings.sender.hasRoom()) {
      this.#socket.send(JSON.stringify(message));
    }
  }

  #connect(): void {
    const { access, url } = this.#settings;
    const first = access.firstMessage();
    if (first === null) {
      // The samples go on into the spool; with an invitation they are sent at the next start.
      this.#complain('access-unknown', 'not paired with this receiver; start with --pair CODE');
      return;
    }
    this.#admitted = false;
    this.#welcomed = false;
    this.#openedS = this.#machineS();
    this.#heardS = this.#openedS;
    this.#exchanges = 0;
    this.#returnedStationS = null;
    this.#complaints = 0;
    this.#socket = openPinnedSocket({
      ...{ url, pin: access.pin, handshakeWithinS: this.#welcomeWithinS },
      onOpen: (socket) => socket.send(JSON.stringify(first)),
      onImpostor: () => this.#complain('receiver-not-the-one', 'its TLS key is not the pinned one'),
      onMessage: (socket, data, isBinary) => {
        if (socket === this.#socket) this.#receive(data, isBinary);
      },
      onClose: (socket, why) => {
        if (socket === this.#socket) this.#lost(why);
      },
    });
  }

  get #longestRetryMs(): number {
    return (this.#silentAfterS * 1000) / RETRIES_IN_SILENCE;
  }

  #lost(why: string): void {
    const wasWelcomed = this.#welcomed;
    this.#socket = null;
    this.#welcomed = false;
    this.#settings.sender.disconnected();
    if (this.#stopped) return;
    if (wasWelcomed || !this.#lostTold) {
      this.#lostTold = true;
      this.#settings.report({
        event: 'fault',
        ...new Fault('link-lost', this.#settings.url, why || 'no answer').report,
      });
    }
    this.#retry = setTimeout(() => this.#connect(), this.#retryMs);
    this.#retryMs = Math.min(this.#longestRetryMs, this.#retryMs * 2);
  }

  #tick(): void {
    const socket = this.#socket;
    const nowS = this.#machineS();
    if (socket === null) return;
    if (!this.#welcomed && nowS - this.#openedS > this.#welcomeWithinS) {
      this.#giveUp(socket, `no welcome in ${this.#welcomeWithinS} s`);
    } else if (this.#welcomed && nowS - this.#heardS > this.#silentAfterS) {
      this.#giveUp(socket, `silent for ${this.#silentAfterS} s`);
    } else if (this.#welcomed) {
      const usualS = this.#silentAfterS / EXCHANGES_IN_SILENCE;
      const everyS =
        this.#exchanges < QUICK_EXCHANGES ? Math.min(QUICK_EXCHANGE_EVERY_S, usualS) : usualS;
      if (nowS - this.#exchangedS >= everyS) this.#exchange(nowS);
      this.#settings.sender.pump();
    }
  }

  /** A half-open connection never closes by itself. */
  #giveUp(socket: WebSocket, why: string): void {
    this.#lost(why);
    socket.terminate();
  }

  #exchange(nowS: number): void {
    this.#exchangedS = nowS;
    this.#exchanges += 1;
    const earlier = this.#returnedStationS;
    this.#returnedStationS = null;
    this.sendNow({
      type: 'exchange',
      sentStationS: this.#settings.clocks.station.monotonicS(),
      ...(earlier === null ? {} : { earlierReturnedStationS: earlier }),
    });
  }

  #receive(data: Buffer, isBinary: boolean): void {
    const arrivedStationS = this.#settings.clocks.station.monotonicS();
    this.#heardS = this.#machineS();
    if (isBinary) {
      this.#complain('message-malformed', 'a binary message');
      return;
    }
    if (!this.#admitted) {
      this.#admission(data);
      return;
    }
    const message = this.#read(fromReceiver, data);
    if (message === null) return;
    switch (message.type) {
      case 'welcome':
        this.#welcome(message);
        break;
      case 'acknowledged':
        void this.#settings.sender.acknowledged(message.stream, message.number);
        break;
      case 'exchange-reply':
        this.#returnedStationS = arrivedStationS;
        break;
      case 'simulate':
        this.#simulate(message);
        break;
      case 'refused':
        this.#refused(message);
        break;
    }
  }

  /** The answer to who we said we are: only after it are we heard. */
  #admission(data: Buffer): void {
    const socket = this.#socket;
    const message = this.#read(z.discriminatedUnion('type', [admitted, notAdmitted]), data);
    if (message === null || socket === null) return;
    const { access, hello } = this.#settings;
    if (message.type === 'not-admitted') {
      if (message.code !== 'access-crowded') this.#retryMs = this.#longestRetryMs;
      this.#complain(knownCode(message.code), message.found);
      void access.refused(message.code).catch((error: unknown) => this.#notKept(error));
      return;
    }
    this.#admitted = true;
    // What opens from now on is on disk before anything follows from it. A token that cannot be
    // kept is told of, and the link goes on while it lasts.
    void access
      .admitted(message)
      .catch((error: unknown) => this.#notKept(error))
      .then(() => {
        if (socket === this.#socket) socket.send(JSON.stringify(hello(message.challenge)));
      });
  }

  #notKept(error: unknown): void {
    if (!(error instanceof Fault)) throw error;
    this.#complain(error.code, error.report.found);
  }

  /** An order the simulated vessel cannot follow is refused by her; the samples go on. */
  #simulate(order: Simulate): void {
    try {
      this.#settings.simulate(order);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      this.#complain('message-malformed', error.message);
    }
  }

  #welcome(message: Extract<FromReceiver, { type: 'welcome' }>): void {
    const socket = this.#socket;
    if (this.#welcomed || socket === null) return;
    this.#welcomed = true;
    this.#retryMs = FIRST_RETRY_MS;
    this.#lostTold = false;
    this.#exchangedS = 0;
    const { url, report } = this.#settings;
    report({ event: 'receiver', url, record: message.record });
    const { sender, welcomed } = this.#settings;
    const connected = sender.connected({
      record: message.record,
      acknowledged: new Map(message.acknowledged.map(({ stream, number }) => [stream, number])),
      send: (bytes) => socket.send(bytes, { binary: false }),
      queuedBytes: () => socket.bufferedAmount,
    });
    // Only then there is room on the line for what it says.
    void connected.then(() => welcomed?.());
  }

  #refused({ code, where, found }: Extract<FromReceiver, { type: 'refused' }>): void {
    this.#complain(knownCode(code), `${code} ${found}`, where);
    this.#settings.sender.refused(code, where);
  }

  /** Null for what is not of the agreed form; that is told. */
  #read<S extends z.ZodType>(schema: S, data: Buffer): z.infer<S> | null {
    try {
      return readMessage(schema, data, this.#settings.url);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.#complain(error.code, error.report.found);
      return null;
    }
  }

  #complain(code: FaultCode, found: string, where = this.#settings.url): void {
    this.#complaints += 1;
    if (this.#complaints > MOST_COMPLAINTS) return;
    this.#settings.report({ event: 'fault', ...new Fault(code, where, found).report });
  }

  get #welcomeWithinS(): number {
    return this.#silentAfterS / WELCOMES_IN_SILENCE;
  }

  #machineS(): number {
    return this.#settings.clocks.machine.monotonicS();
  }
}
