import type { WebSocket } from 'ws';
import { blindSession, stateLive, statesTold } from '#core/session/blind-session.ts';
import type { SessionState } from '#core/session/session.ts';
import { type EnteredHull, enteredHull, withoutHullText } from '#core/session/told-survey.ts';
import { blindPicture } from '#core/wire/blind-picture.ts';
import { mayAct } from '#core/wire/role-acts.ts';
import type {
  HullMessage,
  LivePicture,
  StateMessage,
  ToScreen,
} from '#core/wire/screen-message.ts';
import { BlindPart, type StateToTell } from './blind-part.ts';
import { Screen, type ScreenHandlers, type ScreenPerson } from './screens.ts';
import type { Traces } from './traces.ts';

/** A state that only counts more samples is not worth sending at every commit. */
const SAMPLES_ONLY_EVERY_COMMITS = 8;

/** All screens: the state when it changes and is on disk, the picture ten times a second. */
export class ScreenHub {
  readonly #session: () => SessionState;
  readonly #handlers: Omit<ScreenHandlers, 'state'>;
  /** States whose heel was sent, by whom it was sent to: a browser, in all its windows and for good. */
  readonly #seen = new Map<string, Set<number>>();
  readonly #screens = new Set<Screen>();
  #sent: SessionState | null = null;
  #commitsUnsent = 0;

  constructor(session: () => SessionState, handlers: Omit<ScreenHandlers, 'state'>) {
    this.#session = session;
    this.#handlers = handlers;
  }

  /** A screen that was admitted, by a token of this `key`; it is sent the state at once. */
  connect(
    socket: WebSocket,
    person: ScreenPerson,
    by: { readonly key: string; readonly blind: boolean },
  ): void {
    const seen = this.#seen.get(by.key) ?? new Set();
    this.#seen.set(by.key, seen);
    const screen = new Screen(
      {
        get waitingBytes() {
          return socket.bufferedAmount;
        },
        send: (text) => socket.send(text),
        close: (code, reason) => socket.close(code, reason),
      },
      person,
      new BlindPart(seen, by.blind && mayAct(person.role, 'hand-reading')),
      { ...this.#handlers, state: () => this.#state() },
    );
    this.#screens.add(screen);
    screen.sendState(this.#state());
    screen.sendWhole(hullText(enteredHull(this.#session())));
    screen.sendReduction();
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
    const hull = enteredHull(session);
    const isNewHull =
      hull?.line !== (this.#sent === null ? undefined : enteredHull(this.#sent)?.line);
    this.#sent = session;
    const state = this.#state();
    const hullTold = isNewHull ? hullText(hull) : null;
    for (const screen of this.#screens) {
      screen.sendState(state);
      if (hullTold !== null) screen.sendWhole(hullTold);
    }
  }

  /** The day was reduced anew. */
  reduced(): void {
    for (const screen of this.#screens) screen.sendReduction();
  }

  /** Sends a text to every screen of a role. */
  tell(role: ScreenPerson['role'], text: string): void {
    for (const screen of this.#screens) if (screen.person.role === role) screen.sendWhole(text);
  }

  /** Sends each screen what it lacks; a picture is made at most once whole and once as news. */
  sendPicture(make: (whole: boolean) => LivePicture, traces: Traces): void {
    const picture = {
      whole: once(() => make(true)),
      news: once(() => make(false)),
      blind: once(() => blindPicture(make(false))),
      state: stateLive(this.#session()),
    };
    for (const screen of this.#screens) screen.sendLive(picture);
    traces.markSent();
  }

  #state(): StateToTell {
    const session = this.#session();
    const message = (state: SessionState): StateMessage => ({
      type: 'state',
      state: withoutHullText(state),
    });
    return {
      all: once(() => message(session)),
      blind: once(() => message(blindSession(session))),
      states: statesTold(session),
    };
  }
}

function hullText(entered: EnteredHull | null): string {
  const message: HullMessage = {
    type: 'hull',
    line: entered?.line ?? null,
    hull: entered?.hull ?? null,
  };
  return JSON.stringify(message);
}

/** A message as text, made when it is first wanted and once only. */
function once(make: () => ToScreen): () => string {
  let text: string | null = null;
  return () => {
    text ??= JSON.stringify(make());
    return text;
  };
}

function onlySamplesDiffer(before: SessionState, now: SessionState): boolean {
  const keys = Object.keys(now) as (keyof SessionState)[];
  return (
    before.streams.length === now.streams.length &&
    before.streams.every((stream, index) => stream.open === now.streams[index]?.open) &&
    keys.every((key) => key === 'lines' || key === 'streams' || before[key] === now[key])
  );
}
