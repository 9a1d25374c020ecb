import { FAULTS, Fault, type FaultReport } from '#core/fault/fault.ts';
import { messageFromText } from '#core/wire/codec.ts';
import { mayAct, type PersonRole } from '#core/wire/role-acts.ts';
import {
  type Act,
  type ActAnswer,
  type FromScreen,
  fromScreen,
  MOST_SCREEN_MESSAGE_BYTES,
  type ToScreen,
} from '#core/wire/screen-message.ts';
import type { BlindPart, PictureToTell, StateToTell } from './blind-part.ts';
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
  readonly role: PersonRole;
}

/** A screen that reads too slowly misses live pictures; one that takes nothing at all is let go. */
const LIVE_UNDER_BYTES = 256 * 1024;
const MOST_WAITING_BYTES = 8 * 1024 * 1024;
/** Acts under way at once; a person does one. */
const MOST_ACTS = 8;
export const MOST_SCREEN_REFUSALS = 200;

export type ActHandler = (act: Act, person: ScreenPerson) => Promise<void>;
/** What concerns who may come in: an answer to the screen that asked, or the fault it is refused with. */
export type AccessHandler = (request: AccessRequest) => ToScreen;
export type AccessRequest = Extract<FromScreen, { type: 'invite' | 'withdraw' }>;

export interface ScreenHandlers {
  readonly act: ActHandler;
  readonly access: AccessHandler;
  /** A screen that is refused this often is let go. */
  readonly mostRefusals?: number | undefined;
  /** The session as it is now. */
  readonly state: () => StateToTell;
  /** The day reduced, as a message; null: not yet. */
  readonly reduction: () => string | null;
}

/** One screen: its person, what it was sent, and its acts, each answered once it is on disk or refused. */
export class Screen {
  readonly person: ScreenPerson;
  #needsWhole = true;
  #acts = 0;
  #refusals = 0;
  readonly #socket: ScreenSocket;
  readonly #act: ActHandler;
  readonly #access: AccessHandler;
  readonly #mostRefusals: number;
  readonly #state: () => StateToTell;
  readonly #reduction: () => string | null;
  readonly #sight: BlindPart;

  /** `sight`: what of the sensors this person was sent. */
  constructor(
    socket: ScreenSocket,
    person: ScreenPerson,
    sight: BlindPart,
    handlers: ScreenHandlers,
  ) {
    this.person = person;
    this.#sight = sight;
    this.#state = handlers.state;
    this.#reduction = handlers.reduction;
    this.#socket = socket;
    this.#act = handlers.act;
    this.#access = handlers.access;
    this.#mostRefusals = handlers.mostRefusals ?? MOST_SCREEN_REFUSALS;
  }

  receive(text: string): void {
    try {
      const message = messageFromText(fromScreen, text, {
        where: 'screen',
        mostBytes: MOST_SCREEN_MESSAGE_BYTES,
      });
      if (message.type === 'act') this.#start(message.id, this.#sight.said(message.act));
      else if (message.type === 'blind') this.#setBlind(message.id, message.blind);
      else this.#ask(message);
    } catch (error) {
      // Which act it was cannot be known; an empty id answers none and still says why.
      this.#answer('', faultOf(error, 'screen').report);
    }
  }

  /** Sends what must not be missed, or lets a screen go that has taken nothing for megabytes. */
  sendWhole(text: string): void {
    if (this.#socket.waitingBytes > MOST_WAITING_BYTES) this.#socket.close(1013, 'too slow');
    else this.#socket.send(text);
  }

  /** Sends the session, or of it what one may know who reads by eye. */
  sendState(state: StateToTell): void {
    this.sendWhole(this.#sight.ofState(state));
  }

  /** Sends the day reduced, in which every state's heel stands: not to one who reads by eye. */
  sendReduction(): void {
    const text = this.#reduction();
    if (text !== null && !this.#sight.blind) this.sendWhole(text);
  }

  /** Sends the newest picture, or nothing to a slow screen, which then gets the next one whole. */
  sendLive(picture: PictureToTell): void {
    if (this.#socket.waitingBytes > LIVE_UNDER_BYTES) {
      this.#needsWhole = true;
      return;
    }
    this.#socket.send(this.#sight.ofPicture(picture, this.#needsWhole));
    this.#needsWhole = this.#sight.blind;
  }

  /** The session is sent at once: the screen forgets what it had, or is told all. */
  #setBlind(id: string, blind: boolean): void {
    const { name, role } = this.person;
    if (!mayAct(role, 'hand-reading')) {
      this.#answer(id, {
        code: 'act-not-yours',
        where: 'blind',
        found: `${name} is here as ${role}`,
      });
      return;
    }
    this.#sight.blind = blind;
    this.#needsWhole = true;
    this.sendState(this.#state());
    this.sendReduction();
    this.#answer(id, null);
  }

  #ask(request: AccessRequest): void {
    try {
      const { name, role } = this.person;
      if (role !== 'architect')
        throw new Fault('act-not-yours', request.type, `${name} is here as ${role}`);
      this.sendWhole(JSON.stringify(this.#access(request)));
    } catch (error) {
      this.#answer(request.id, faultOf(error, request.type).report);
    }
  }

  #start(id: string, act: Act): void {
    if (this.#acts >= MOST_ACTS) {
      this.#answer(id, { code: 'act-not-now', where: act.kind, found: 'others are under way' });
      return;
    }
    this.#acts += 1;
    this.#act(act, this.person)
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
    if (this.#refusals > this.#mostRefusals) this.#socket.close(1008, 'too many refusals');
  }
}
