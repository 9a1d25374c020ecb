import WebSocket from 'ws';
import { FAULTS, Fault, type FaultCode } from '#core/fault/fault.ts';
import {
  type FromReceiver,
  type FromStation,
  fromReceiver,
  MOST_LINK_MESSAGE_BYTES,
  type Simulate,
} from '#core/wire/link-message.ts';
import type { Report } from './events.ts';
import type { LinkSender } from './link-sender.ts';
import type { Clocks } from './machine-clock.ts';

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
  /** Machine seconds after which a silent receiver is given up and looked for anew. */
  readonly silentAfterS?: number;
  /** What this station says of itself at each connection. */
  hello(): FromStation;
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
    const socket = new WebSocket(this.#settings.url, {
      maxPayload: MOST_LINK_MESSAGE_BYTES,
      handshakeTimeout: this.#welcomeWithinS * 1000,
      perMessageDeflate: false,
    });
    this.#socket = socket;
    this.#welcomed = false;
    this.#openedS = this.#machineS();
    this.#heardS = this.#openedS;
    this.#exchanges = 0;
    this.#returnedStationS = null;
    this.#complaints = 0;
    socket.on('open', () => socket.send(JSON.stringify(this.#settings.hello())));
    socket.on('message', (data: Buffer, isBinary: boolean) => {
      if (socket === this.#socket) this.#receive(data, isBinary);
    });
    // 'close' always follows 'error'; the reason is told once, at the close.
    let why = '';
    socket.on('error', (error) => {
      why = error.message;
    });
    socket.on('close', (code) => {
      if (socket === this.#socket) this.#lost(why || `closed with ${code}`);
    });
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
    this.#retryMs = Math.min((this.#silentAfterS * 1000) / RETRIES_IN_SILENCE, this.#retryMs * 2);
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
    const message = isBinary ? null : this.#read(data);
    if (message === null) {
      if (isBinary) this.#complain('message-malformed', 'a binary message');
      return;
    }
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
    this.#complain(
      code in FAULTS ? (code as FaultCode) : 'message-unknown',
      `${code} ${found}`,
      where,
    );
    this.#settings.sender.refused(code, where);
  }

  #read(data: Buffer): FromReceiver | null {
    let parsed: unknown;
    try {
      parsed = JSON.parse(data.toString('utf8'));
    } catch {
      this.#complain('message-malformed', 'not JSON');
      return null;
    }
    const checked = fromReceiver.safeParse(parsed);
    if (checked.success) return checked.data;
    const [issue] = checked.error.issues;
    const unknown = issue?.code === 'invalid_union' && issue.path.join('.') === 'type';
    this.#complain(
      unknown ? 'message-unknown' : 'message-malformed',
      `${issue?.path.join('.')}: ${issue?.message}`.slice(0, 200),
    );
    return null;
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
