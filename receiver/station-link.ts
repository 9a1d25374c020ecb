import { Fault, type FaultCode, type FaultReport } from '#core/fault/fault.ts';
import { ClockExchange } from '#core/sample/clock-exchange.ts';
import { isSampleBlock } from '#core/sample/sample-block-form.ts';
import { MOST_ITEM_BYTES, type StreamItem, streamItem } from '#core/sample/stream-item.ts';
import { jsonFromText, messageFromJson, typeOf } from '#core/wire/codec.ts';
import {
  type FromReceiver,
  type FromStation,
  fromStation,
  type Hello,
  MOST_LINK_MESSAGE_BYTES,
} from '#core/wire/link-message.ts';
import { faultOf } from './own-fault.ts';

/** What is asked of the socket under a link. */
export interface LinkSocket {
  send(text: string): void;
  close(code: number, reason: string): void;
  pause(): void;
  resume(): void;
}

/** What a link hands its station's messages to. Each may throw the fault they are refused with. */
export interface LinkOwner {
  hello(link: StationLink, hello: Hello): void;
  item(link: StationLink, item: StreamItem, itemText: string): void;
  message(link: StationLink, message: Exclude<FromStation, Hello>): void;
}

/** A board side that is refused this often on one connection has a fault that waiting will not mend. */
export const MOST_LINK_REFUSALS = 1000;
/** What a connection was admitted with, and how often it may be refused. */
export interface LinkTerms {
  readonly challenge: string;
  readonly mostRefusals?: number | undefined;
}

/** A greeting refused with one of these is the last message of its connection. */
const ENDING: ReadonlySet<FaultCode> = new Set([
  'station-twice',
  'station-not-the-one',
  'simulation-other',
]);
const ITEM_TYPES: ReadonlySet<unknown> = new Set(
  streamItem.options.map((option) => option.shape.type.value),
);

/**
 * One connection of a board side. Checks every message at the door; what is refused is answered
 * with its code and the next one is looked at, so that a bad message never stops the stream.
 */
export class StationLink {
  readonly exchange = new ClockExchange();
  /** When the reply to the exchange before left, receiver time. */
  lastReplyReceiverS: number | null = null;
  /** What this connection was admitted with. */
  readonly challenge: string;
  readonly #socket: LinkSocket;
  readonly #owner: LinkOwner;
  readonly #mostRefusals: number;
  #hello: Hello | null = null;
  #refusals = 0;

  constructor(
    socket: LinkSocket,
    owner: LinkOwner,
    { challenge, mostRefusals = MOST_LINK_REFUSALS }: LinkTerms,
  ) {
    this.#mostRefusals = mostRefusals;
    this.challenge = challenge;
    this.#socket = socket;
    this.#owner = owner;
  }

  /** The station's greeting; null until it was accepted. */
  get station(): Hello | null {
    return this.#hello;
  }

  receive(text: string): void {
    try {
      this.#receive(text);
    } catch (error) {
      this.#refuse(faultOf(error, 'device').report);
    }
  }

  send(message: FromReceiver): void {
    this.#socket.send(JSON.stringify(message));
  }

  close(code: number, reason: string): void {
    this.#socket.close(code, reason);
  }

  /** Lets the station's messages wait in the socket while the disk cannot take them. */
  setWaiting(waiting: boolean): void {
    if (waiting) this.#socket.pause();
    else this.#socket.resume();
  }

  #receive(text: string): void {
    const json = jsonFromText(text, { where: 'device', mostBytes: MOST_LINK_MESSAGE_BYTES });
    const type = typeOf(json);
    if (ITEM_TYPES.has(type)) this.#item(json, text);
    else this.#control(messageFromJson(fromStation, json, 'device'));
  }

  #item(json: unknown, text: string): void {
    // Nearly every message is a block; the schema is asked only what is wrong with another.
    const item = isSampleBlock(json)
      ? json
      : messageFromJson(streamItem, json, `item ${idOf(json)}`);
    const where = `${item.stream} ${item.number}`;
    if (text.length > MOST_ITEM_BYTES || Buffer.byteLength(text) > MOST_ITEM_BYTES)
      throw new Fault('message-too-large', where, `over ${MOST_ITEM_BYTES} bytes`);
    // The bytes become part of a line, and a line ends at its newline.
    if (text.includes('\n') || text.includes('\r'))
      throw new Fault('message-malformed', where, 'a raw newline');
    if (this.#hello === null) throw new Fault('station-not-said', where, 'no greeting yet');
    if (!item.stream.startsWith(`${this.#hello.station}/`))
      throw new Fault('station-not-said', where, `not a stream of ${this.#hello.station}`);
    if (item.type === 'stream-opened' && item.station !== this.#hello.station)
      throw new Fault('station-not-said', where, `opened as station ${item.station}`);
    this.#owner.item(this, item, text);
  }

  #control(message: FromStation): void {
    if (message.type === 'hello') {
      if (this.#hello !== null)
        throw new Fault('message-malformed', 'device hello', 'a second greeting');
      this.#owner.hello(this, message);
      this.#hello = message;
      return;
    }
    if (this.#hello === null) throw new Fault('station-not-said', message.type, 'no greeting yet');
    this.#owner.message(this, message);
  }

  #refuse(report: FaultReport): void {
    this.#refusals += 1;
    this.send({
      type: 'refused',
      code: report.code,
      where: report.where.slice(0, 200),
      found: report.found.slice(0, 500),
    });
    if (ENDING.has(report.code)) this.close(1008, report.code);
    else if (this.#refusals >= this.#mostRefusals) this.close(1008, 'too many refusals');
  }
}

function idOf(json: unknown): string {
  const { stream, number } = json as { stream?: unknown; number?: unknown };
  return `${String(stream).slice(0, 100)} ${String(number).slice(0, 20)}`;
}
