import { createContext } from 'svelte';
import { Fault, type FaultReport } from '#core/fault/fault.ts';
import type { Hull } from '#core/hull/hull.ts';
import type { HullText } from '#core/record/entry-line.ts';
import { hullOfText } from '#core/session/hull-of-text.ts';
import type { Link } from '../link/link.svelte.ts';
import { linesOfBox, linesOfHull, type VesselLines } from './vessel-lines.ts';

/** A hull read from its text: the hull, or why there is none; both null for tables, which are no hull. */
export interface HullRead {
  readonly hull: Hull | null;
  readonly refused: FaultReport | null;
}

export function readHull(entered: HullText): HullRead {
  try {
    return { hull: hullOfText(entered), refused: null };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { hull: null, refused: error.report };
  }
}

const NO_HULL: HullRead = { hull: null, refused: null };

/** Her hull as entered, read in the page once for each line that brings one. */
export class HullHere {
  readonly #link: Link;
  readonly #read = $derived.by(() => {
    const { hull } = this.#link.hull;
    return hull === null ? NO_HULL : readHull(hull);
  });
  readonly #box = $derived.by(() => {
    const particulars = this.#link.session?.test?.particulars;
    return particulars === undefined ? null : linesOfBox(particulars.lengthM, particulars.beamM);
  });
  readonly #lines = $derived.by(() => {
    const { hull } = this.#read;
    return hull === null ? this.#box : linesOfHull(hull);
  });

  constructor(link: Link) {
    this.#link = link;
  }

  get current(): HullRead {
    return this.#read;
  }

  /** What of her is drawn; null: not even a length is known. */
  get lines(): VesselLines | null {
    return this.#lines;
  }
}

export const [useHull, provideHull] = createContext<HullHere>();
