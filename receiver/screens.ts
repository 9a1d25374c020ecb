import { FAULTS, type FaultReport } from '#core/fault/fault.ts';
import { messageFromText } from '#core/wire/codec.ts';
import {
  type Act,
  type ActAnswer,
  fromScreen,
  MOST_SCREEN_MESSAGE_BYTES,
} from '#core/wire/screen-message.ts';
import { faultOf } from './own-fault.ts';

/** What is asked of the socket under a screen. */
export interface ScreenSocket {
  /** Bytes handed over and not yet gone. */
  readonly waitingBytes: number;
  send(text: string): void;
  close(code: number, reason: string): void;
}

export interface ScreenPerson {
  readonly name: string;
  readonly role: 'architect' | 'witness' | 'technician';
}

/** A screen that reads too slowly misses live pictures; one that takes nothing at all is let go. */
const LIVE_UNDER_BYTES = 256 * 1024;
const MOST_WAITING_BYTES = 8 * 1024 * 1024;
/** Acts under way at once; a person does one. */
const MOST_ACTS = 8;
const MOST_REFUSALS = 200;

export type ActHandler = (act: Act, person: ScreenPerson) => Promise<void>;

/** One screen: its person, what it was sent, and its acts, each answered once it is on disk or refused. */
export class Screen {
  #person: ScreenPerson | null = null;
  #needsWhole = true;
  #acts = 0;
  #refusals = 0;
  readonly #socket: ScreenSocket;
  readonly #act: ActHandler;
  readonly #greeted: (screen: Screen) => void;

  constructor(socket: ScreenSocket, act: ActHandler, greeted: (screen: Screen) => void) {
    this.#socket = socket;
    this.#act = act;
    this.#greeted = greeted;
  }

  get greeted(): boolean {
    return this.#person !== null;
  }

  receive(text: string): void {
    try {
      const message = messageFromText(fromScreen, text, {
        where: 'screen',
        mostBytes: MOST_SCREEN_MESSAGE_BYTES,
      });
      if (message.type === 'hello') {
        this.#person = { name: message.name, role: message.role };
        this.#greeted(this);
      } else this.#start(message.id, message.act);
    } catch (error) {
      // Which act it was cannot be known; an empty id answers none and still says why.
      this.#answer('', faultOf(error, 'screen').report);
    }
  }

  /** Sends the state, or lets a screen go that has taken nothing for megabytes. */
  sendState(text: string): void {
    if (this.#socket.waitingBytes > MOST_WAITING_BYTES) this.#socket.close(1013, 'too slow');
    else this.#socket.send(text);
  }

  /** Sends the newest picture, or nothing to a slow screen, which then gets the next one whole. */
  sendLive(picture: { readonly whole: () => string; readonly news: () => string }): void {
    if (this.#socket.waitingBytes > LIVE_UNDER_BYTES) {
      this.#needsWhole = true;
      return;
    }
    this.#socket.send(this.#needsWhole ? picture.whole() : picture.news());
    this.#needsWhole = false;
  }

  #start(id: string, act: Act): void {
    const person = this.#person;
    if (person === null) {
      this.#answer(id, { code: 'act-not-now', where: act.kind, found: 'no greeting yet' });
      return;
    }
    if (this.#acts >= MOST_ACTS) {
      this.#answer(id, { code: 'act-not-now', where: act.kind, found: 'others are under way' });
      return;
    }
    this.#acts += 1;
    this.#act(act, person)
      .then(
        () => this.#answer(id, null),
        (error: unknown) => this.#answer(id, faultOf(error, act.kind).report),
      )
      .finally(() => {
        this.#acts -= 1;
      });
  }

  #answer(id: string, report: FaultReport | null): void {
    const refused =
      report === null
        ? null
        : { code: report.code, found: report.found, remedy: FAULTS[report.code].remedy };
    const answer: ActAnswer = { type: 'answer', id, refused };
    this.#socket.send(JSON.stringify(answer));
    if (refused === null) return;
    this.#refusals += 1;
    if (this.#refusals > MOST_REFUSALS) this.#socket.close(1008, 'too many refusals');
  }
}
