import type { WebSocket } from 'ws';
import type { SessionState } from '#core/session/session.ts';
import type { LivePicture, StateMessage } from '#core/wire/screen-message.ts';
import { Screen, type ScreenHandlers, type ScreenPerson } from './screens.ts';
import type { Traces } from './traces.ts';

/** A state that only counts more samples is not worth sending at every commit. */
const SAMPLES_ONLY_EVERY_COMMITS = 8;

/** All screens: the state when it changes and is on disk, the picture ten times a second. */
export class ScreenHub {
  readonly #session: () => SessionState;
  readonly #handlers: ScreenHandlers;
  readonly #screens = new Set<Screen>();
  #sent: SessionState | null = null;
  #commitsUnsent = 0;

  constructor(session: () => SessionState, handlers: ScreenHandlers) {
    this.#session = session;
    this.#handlers = handlers;
  }

  /** A screen that was admitted; it is sent the state at once. */
  connect(socket: WebSocket, person: ScreenPerson): void {
    const screen = new Screen(
      {
        get waitingBytes() {
          return socket.bufferedAmount;
        },
        send: (text) => socket.send(text),
        close: (code, reason) => socket.close(code, reason),
      },
      person,
      this.#handlers,
    );
    this.#screens.add(screen);
    screen.sendWhole(this.#stateText());
    socket.on('message', (bytes: Buffer, isBinary: boolean) => {
      screen.receive(isBinary ? '' : bytes.toString('utf8'));
    });
    socket.once('close', () => this.#screens.delete(screen));
  }

  /** The session as it is now is on disk. */
  sessionSaved(): void {
    const session = this.#session();
    this.#commitsUnsent += 1;
    if (this.#sent !== null && onlySamplesDiffer(this.#sent, session))
      if (this.#commitsUnsent < SAMPLES_ONLY_EVERY_COMMITS) return;
    this.#commitsUnsent = 0;
    this.#sent = session;
    const text = this.#stateText();
    for (const screen of this.#screens) screen.sendWhole(text);
  }

  /** Sends a text to every screen of a role. */
  tell(role: ScreenPerson['role'], text: string): void {
    for (const screen of this.#screens) if (screen.person.role === role) screen.sendWhole(text);
  }

  /** Sends each screen what it lacks; a picture is made at most once whole and once as news. */
  sendPicture(make: (whole: boolean) => LivePicture, traces: Traces): void {
    const once = (whole: boolean) => {
      let text: string | null = null;
      return () => {
        text ??= JSON.stringify(make(whole));
        return text;
      };
    };
    const picture = { whole: once(true), news: once(false) };
    for (const screen of this.#screens) screen.sendLive(picture);
    traces.markSent();
  }

  #stateText(): string {
    const message: StateMessage = { type: 'state', state: this.#session() };
    return JSON.stringify(message);
  }
}

function onlySamplesDiffer(before: SessionState, now: SessionState): boolean {
  const keys = Object.keys(now) as (keyof SessionState)[];
  return (
    before.streams.length === now.streams.length &&
    before.streams.every((stream, index) => stream.open === now.streams[index]?.open) &&
    keys.every((key) => key === 'lines' || key === 'streams' || before[key] === now[key])
  );
}
