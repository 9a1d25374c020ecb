import { createContext } from 'svelte';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import type { SessionState } from '#core/session/session.ts';
import {
  type Act,
  type ActAnswer,
  type FromScreen,
  type LivePicture,
  SCREEN_VERSION,
  type ToScreen,
} from '#core/wire/screen-message.ts';
import { readToScreen } from '#core/wire/to-screen.ts';
import type { Person } from './person.ts';
import { Traces } from './traces.ts';

export type Refusal = NonNullable<ActAnswer['refused']>;
export type Connection = 'connecting' | 'open' | 'lost';

/** Without any message for this long the figures are old, whatever the socket says. */
export const SILENT_AFTER_S = 3;
const AGAIN_AFTER_S = 1;
const ANSWER_WITHIN_S = 15;

const NO_ANSWER: Refusal = {
  code: 'message-unanswered',
  found: 'The receiver did not answer.',
  remedy: 'Look at the ledger whether the act is recorded before doing it again.',
};

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
  person = $state.raw<Person>({ name: 'Architect', role: 'architect' });
  refusal = $state.raw<Refusal | null>(null);
  /** True once the browser would not keep this screen awake. */
  screenMaySleep = $state(false);
  readonly traces = new Traces();

  readonly #address: string;
  readonly #nowS: () => number;
  readonly #waiting = new Map<string, (refused: Refusal | null) => void>();
  #socket: WebSocket | null = null;
  #heardS = 0;
  #lastId = 0;

  constructor(address: string, person: Person, nowS: () => number) {
    this.#address = address;
    this.#nowS = nowS;
    this.person = person;
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
    // The receiver learns a name by the greeting only.
    this.#socket?.close();
  }

  /** Resolves with the receiver's refusal, or null when the act is in the record. */
  async act(act: Act): Promise<Refusal | null> {
    this.refusal = null;
    this.#lastId += 1;
    const id = `${this.#lastId}`;
    const refused = await new Promise<Refusal | null>((resolve) => {
      this.#waiting.set(id, resolve);
      if (!this.#send({ type: 'act', id, act })) resolve(NO_ANSWER);
      setTimeout(() => resolve(NO_ANSWER), ANSWER_WITHIN_S * 1000);
    });
    this.#waiting.delete(id);
    this.refusal = refused;
    return refused;
  }

  #connect(): void {
    const socket = new WebSocket(this.#address);
    this.#socket = socket;
    socket.onopen = () => {
      this.#send({ type: 'hello', version: SCREEN_VERSION, ...this.person });
    };
    socket.onmessage = (event: MessageEvent<string>) => {
      this.#take(event.data);
    };
    socket.onclose = () => {
      if (this.#socket !== socket) return;
      this.connection = 'lost';
      for (const resolve of this.#waiting.values()) resolve(NO_ANSWER);
      setTimeout(() => this.#connect(), AGAIN_AFTER_S * 1000);
    };
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
    } else if (message.id === '') {
      // A refusal of something that could not even be read as an act.
      this.refusal = message.refused;
    } else this.#waiting.get(message.id)?.(message.refused);
  }

  #send(message: FromScreen): boolean {
    if (this.#socket?.readyState !== WebSocket.OPEN) return false;
    this.#socket.send(JSON.stringify(message));
    return true;
  }
}

export const [useLink, provideLink] = createContext<Link>();
