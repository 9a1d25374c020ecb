import { ACCESS_WITHIN_S } from '#core/wire/access-message.ts';

export const MOST_WAITING = 20;
export const MOST_WAITING_OF_ONE_ADDRESS = 3;

/** A connection that has not said who it is. */
export interface Waiting {
  readonly address: string;
  /** Ends it, with a fault code it is told. */
  dismiss(code: 'access-crowded' | 'access-not-said', found: string): void;
}

/**
 * Connections that have not said who they are: a few, for a few seconds. The oldest makes room,
 * so that somebody who opens many and says nothing keeps nobody else out for long.
 */
export class WaitingRoom {
  readonly #waiting = new Map<Waiting, NodeJS.Timeout>();

  get count(): number {
    return this.#waiting.size;
  }

  enter(waiting: Waiting): void {
    const ofOne = [...this.#waiting.keys()].filter(({ address }) => address === waiting.address);
    if (ofOne.length >= MOST_WAITING_OF_ONE_ADDRESS) this.#dismissOldest(ofOne, 'of one address');
    if (this.#waiting.size >= MOST_WAITING)
      this.#dismissOldest([...this.#waiting.keys()], 'in all');
    const timer = setTimeout(() => {
      this.leave(waiting);
      waiting.dismiss('access-not-said', `nothing within ${ACCESS_WITHIN_S} s`);
    }, ACCESS_WITHIN_S * 1000);
    timer.unref();
    this.#waiting.set(waiting, timer);
  }

  /** It has said who it is, or is gone. */
  leave(waiting: Waiting): void {
    clearTimeout(this.#waiting.get(waiting));
    this.#waiting.delete(waiting);
  }

  #dismissOldest(of: readonly Waiting[], which: string): void {
    const oldest = of[0];
    if (oldest === undefined) return;
    this.leave(oldest);
    oldest.dismiss('access-crowded', `the oldest of ${of.length} waiting ${which} makes room`);
  }
}
