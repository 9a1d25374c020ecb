import { createContext } from 'svelte';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import type { DayReduction } from '#core/session/day-reduction.ts';
import type { SessionState } from '#core/session/session.ts';
import {
  type Admitted,
  admitted,
  type NotAdmitted,
  notAdmitted,
} from '#core/wire/access-message.ts';
import type {
  Act,
  ActAnswer,
  FromScreen,
  HullMessage,
  InvitationMessage,
  LivePicture,
  PeopleMessage,
  ToScreen,
} from '#core/wire/screen-message.ts';
import { readToScreen } from '#core/wire/to-screen.ts';
import type { BrowserAccess } from './access.ts';
import { OwnKey } from './own-key.ts';
import { type Kept, keepName, keptName, type Person } from './person.ts';
import { photographOf } from './photograph.ts';
import { ReceiptKeeper } from './receipt-keeper.ts';
import { type FileOfRecord, takeRecordCopy } from './record-copy.ts';
import { Traces } from './traces.ts';

export type Refusal = NonNullable<ActAnswer['refused']>;
/** `outside`: the receiver is there and does not know this browser. */
export type Connection = 'connecting' | 'open' | 'lost' | 'outside';

/** Without any message for this long the figures are old, whatever the socket says. */
export const SILENT_AFTER_S = 3;
const AGAIN_AFTER_S = 1;
const ANSWER_WITHIN_S = 15;

const NO_ANSWER: Refusal = {
  code: 'message-unanswered',
  found: 'The receiver did not answer.',
  remedy: 'Look at the ledger whether the act is recorded before doing it again.',
};

/** What of the browser the link needs, so that a test can hand in its own. */
export interface BrowserParts {
  readonly access: BrowserAccess;
  readonly kept: Kept;
  readonly random: (bytes: number) => Uint8Array;
  /** Does it open where a pendulum is read by eye? */
  readonly blind?: boolean;
  /** Seconds that never go back. */
  readonly nowS: () => number;
}

/**
 * The one connection to the receiver. A lost socket is replaced by a new one; what was last known
 * stays to be read, marked old. The state is replaced whole, so two windows always agree.
 */
export class Link {
  connection = $state.raw<Connection>('connecting');
  session = $state.raw<SessionState | null>(null);
  live = $state.raw<LivePicture | null>(null);
  /** Seconds since the receiver was last heard; counted on this machine's clock. */
  silentS = $state(0);
  /** Who this screen was let in as; an architect until the receiver has said so, and may then do nothing. */
  person = $state.raw<Person>({ name: 'Architect', role: 'architect' });
  people = $state.raw<PeopleMessage['people']>([]);
  /** The hull as entered, with the number of its line; the session itself leaves its text out. */
  hull = $state.raw<HullMessage>({ type: 'hull', line: null, hull: null });
  /** The desk's own reduction of the day, as last worked out by the receiver; null: none yet. */
  reduction = $state.raw<DayReduction | null>(null);
  refusal = $state.raw<Refusal | null>(null);
  /** True once the browser would not keep this screen awake. */
  screenMaySleep = $state(false);
  readonly traces = new Traces();
  /** Hears each time who this screen was let in as. */
  onPerson: (person: Person) => void = () => {};

  readonly #address: string;
  /** A pendulum is read by eye at this screen: the receiver is to send it no heel. */
  #blind: boolean;
  readonly #nowS: () => number;
  readonly receipts: ReceiptKeeper;
  readonly ownKey: OwnKey;
  readonly #access: BrowserAccess;
  readonly #kept: Kept;
  readonly #waiting = new Map<string, (refused: Refusal | null) => void>();
  readonly #inviting = new Map<string, (invitation: InvitationMessage) => void>();
  #admitted = false;
  #socket: WebSocket | null = null;
  #heardS = 0;
  #lastId = 0;

  constructor(address: string, browser: BrowserParts) {
    this.#address = address;
    this.#nowS = browser.nowS;
    this.#blind = browser.blind === true;
    this.#access = browser.access;
    this.#kept = browser.kept;
    this.ownKey = new OwnKey(browser.kept, browser.random);
    this.receipts = new ReceiptKeeper(browser.kept, this.ownKey);
  }

  /** True when what stands on the screen is not from now. */
  get old(): boolean {
    return this.connection !== 'open' || this.silentS >= SILENT_AFTER_S;
  }

  start(): void {
    this.#heardS = this.#nowS();
    this.#connect();
    setInterval(() => {
      this.silentS = this.#nowS() - this.#heardS;
      if (this.connection === 'open' && this.silentS > 4 * SILENT_AFTER_S) this.#socket?.close();
    }, 500);
  }

  rename(person: Person): void {
    this.person = person;
    keepName(person, this.#kept);
    // The receiver learns a name when the screen comes in.
    this.#socket?.close();
  }

  /** Comes in by four words read from another screen. */
  comeInByWords(words: string): void {
    this.refusal = null;
    this.#access.tryWords(words);
    this.connection = 'connecting';
    this.#connect();
  }

  /** Resolves with an invitation for somebody else, or null when it was refused (see `refusal`). */
  async invite(role: InvitationMessage['role']): Promise<InvitationMessage | null> {
    const id = this.#nextId();
    const invitation = new Promise<InvitationMessage>((resolve) => this.#inviting.set(id, resolve));
    const refused = this.#answerTo(id, { type: 'invite', id, role });
    const first = await Promise.race([invitation, refused]);
    this.#inviting.delete(id);
    this.#waiting.delete(id);
    if (first !== null && 'type' in first) return first;
    this.refusal = first;
    return null;
  }

  async withdraw(person: string): Promise<void> {
    const id = this.#nextId();
    this.#send({ type: 'withdraw', id, person });
  }

  /** Asks the receiver to keep the sensors' heel of the last state from this screen, or to send it again. */
  beBlind(blind: boolean): void {
    if (blind === this.#blind) return;
    this.#blind = blind;
    this.#send({ type: 'blind', id: this.#nextId(), blind });
  }

  /** Resolves with the receiver's refusal, or null when the act is in the record. */
  async act(act: Act): Promise<Refusal | null> {
    this.refusal = null;
    const id = this.#nextId();
    const refused = await this.#answerTo(id, { type: 'act', id, act });
    this.#waiting.delete(id);
    this.refusal = refused;
    return refused;
  }

  #nextId(): string {
    this.#lastId += 1;
    return `${this.#lastId}`;
  }

  #answerTo(id: string, message: FromScreen): Promise<Refusal | null> {
    return new Promise((resolve) => {
      this.#waiting.set(id, resolve);
      if (!this.#send(message)) resolve(NO_ANSWER);
      setTimeout(() => resolve(NO_ANSWER), ANSWER_WITHIN_S * 1000);
    });
  }

  #connect(): void {
    const first = this.#access.firstMessage(keptName(this.#access.role, this.#kept));
    if (first === null) {
      this.connection = 'outside';
      return;
    }
    const socket = new WebSocket(this.#address);
    this.#socket = socket;
    this.#admitted = false;
    socket.onopen = () =>
      socket.send(JSON.stringify(this.#blind ? { ...first, blind: true } : first));
    socket.onmessage = (event: MessageEvent<string>) => {
      if (this.#admitted) this.#take(event.data);
      else this.#admission(event.data);
    };
    socket.onclose = () => {
      if (this.#socket !== socket || this.connection === 'outside') return;
      this.connection = 'lost';
      for (const resolve of this.#waiting.values()) resolve(NO_ANSWER);
      setTimeout(() => this.#connect(), AGAIN_AFTER_S * 1000);
    };
  }

  #admission(message: string): void {
    const answer = readAdmission(message);
    if (answer === null) return;
    if (answer.type === 'admitted') {
      if (answer.role === 'device') return;
      this.#access.admitted(answer);
      this.#admitted = true;
      this.person = { name: answer.name, role: answer.role };
      this.onPerson(this.person);
      return;
    }
    this.#access.refused(answer.code);
    // Somebody else's crowd: the next try may find room.
    if (answer.code === 'access-crowded') return;
    const { code, found, remedy } = answer;
    this.refusal = { code, found, remedy };
    this.connection = 'outside';
  }

  /** A message that is not of the agreed form is told and passed over; the next one may be sound. */
  #take(message: string): void {
    try {
      this.#hear(readToScreen(message));
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      const { code, where, found } = error.report;
      this.refusal = { code, found: `${where}: ${found}`, remedy: FAULTS[code].remedy };
    }
  }

  #hear(message: ToScreen): void {
    this.#heardS = this.#nowS();
    this.silentS = 0;
    this.connection = 'open';
    if (message.type === 'state') this.session = message.state;
    else if (message.type === 'live') {
      this.traces.append(message);
      this.live = message;
      this.#receiptAtReading(message);
    } else if (message.type === 'people') this.people = message.people;
    else if (message.type === 'hull') this.hull = message;
    else if (message.type === 'reduction') this.reduction = message.reduction;
    else if (message.type === 'invitation') this.#inviting.get(message.id)?.(message);
    else if (message.id === '') {
      // A refusal of something that could not even be read as an act.
      this.refusal = message.refused;
    } else this.#waiting.get(message.id)?.(message.refused);
  }

  /** The record, or its report, as a file of this browser's; null when it has it, otherwise why not. */
  takeCopy(file: FileOfRecord = 'record'): Promise<string | null> {
    return takeRecordCopy(this.#access.authorization, file);
  }

  /** The photograph in that line as an address for an image; null: it cannot be had. */
  photograph(line: number): Promise<string | null> {
    return photographOf(this.#access.authorization, line);
  }

  /** A witness's device keeps a receipt at every reading, whether anybody asks or not. */
  #receiptAtReading(live: LivePicture): void {
    if (this.person.role !== 'witness' || this.session === null) return;
    const act = this.receipts.atReading(this.session, live);
    if (act !== null) this.#send({ type: 'act', id: this.#nextId(), act });
  }

  #send(message: FromScreen): boolean {
    if (!this.#admitted || this.#socket?.readyState !== WebSocket.OPEN) return false;
    this.#socket.send(JSON.stringify(message));
    return true;
  }
}

/** What the receiver says to who asks to come in; null when it is neither yes nor no. */
function readAdmission(message: string): Admitted | NotAdmitted | null {
  try {
    const answer = admitted.or(notAdmitted).safeParse(JSON.parse(message));
    return answer.success ? answer.data : null;
  } catch {
    return null;
  }
}

export const [useLink, provideLink] = createContext<Link>();
