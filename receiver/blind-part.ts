import type { Act } from '#core/wire/screen-message.ts';

/** The session in two texts: all of it, and what one may know who reads a pendulum by eye. */
export interface StateToTell {
  readonly all: () => string;
  readonly blind: () => string;
  /** States whose heel stands in the whole. */
  readonly states: readonly number[];
}

/** The live picture in its texts, and the state whose heel it tells. */
export interface PictureToTell {
  readonly whole: () => string;
  readonly news: () => string;
  readonly blind: () => string;
  readonly state: number | null;
}

/**
 * What one screen is sent of the sensors while somebody reads a pendulum by eye at it, and whether
 * a reading entered there is blind: the receiver says so, of what it sent. It cannot know what
 * stood on another screen within sight.
 */
export class BlindPart {
  blind: boolean;
  readonly #seen: Set<number>;

  /** `seen`: states whose heel was sent to this browser, shared by its windows. */
  constructor(seen: Set<number>, blind: boolean) {
    this.#seen = seen;
    this.blind = blind;
  }

  ofState({ all, blind, states }: StateToTell): string {
    if (this.blind) return blind();
    for (const state of states) this.#seen.add(state);
    return all();
  }

  ofPicture({ whole, news, blind, state }: PictureToTell, needsWhole: boolean): string {
    if (this.blind) return blind();
    if (state !== null) this.#seen.add(state);
    return needsWhole ? whole() : news();
  }

  /**
   * An act as it is to be recorded. What a screen says against itself is believed: before the
   * receiver was started again it may have shown what nobody remembers.
   */
  said(act: Act): Act {
    if (act.kind !== 'hand-reading') return act;
    const blind = !this.#seen.has(act.reading.state) && act.reading.blind !== false;
    return { ...act, reading: { ...act.reading, blind } };
  }
}
