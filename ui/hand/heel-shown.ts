import type { SessionState } from '#core/session/session.ts';
import type { PageName } from '../show/stops.ts';

/**
 * Which states' heel, as the sensors have it, this screen has shown: a hand reading entered after
 * that is not blind. Kept for as long as the window, so that loading the page again forgets nothing.
 */

/** The page on which no heel of the sensors stands, and to which the receiver sends none. */
const WITHOUT_HEEL: PageName = 'hand';
const KEY = 'heelwright-heel-shown';

/** Does a window with this in its address open on that page? */
export function opensBlind(hash: string): boolean {
  return hash === `#${WITHOUT_HEEL}`;
}

/** The state whose heel a page shows now; null: none, or weights are under way. */
export function stateShown(session: SessionState | null, page: PageName): string | null {
  if (session === null || page === WITHOUT_HEEL) return null;
  const last = session.states.at(-1);
  if (last === undefined || session.awaits === 'landing') return null;
  return keyOf(session, last.state);
}

export function keyOf({ record }: SessionState, state: number): string {
  return `${record ?? ''}/${state}`;
}

type Kept = Pick<Storage, 'getItem' | 'setItem'>;

/** Remembers in the window's own storage; without one, what it was told. */
export class HeelShown {
  readonly #kept: Kept;
  readonly #shown: Set<string>;

  constructor(kept: Kept) {
    this.#kept = kept;
    const text = kept.getItem(KEY);
    this.#shown = new Set(text === null ? [] : text.split('\n'));
  }

  add(key: string): void {
    if (this.#shown.has(key)) return;
    this.#shown.add(key);
    this.#kept.setItem(KEY, [...this.#shown].join('\n'));
  }

  has(key: string): boolean {
    return this.#shown.has(key);
  }
}
