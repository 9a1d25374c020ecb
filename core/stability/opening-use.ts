import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import type { Hull, Opening } from '../hull/hull.ts';
import { OPENING_STATES, type OpeningState } from './evidence.ts';

/** How the crew keeps an opening that can be shut; one not named is kept shut at sea. */
export const openingUse = z.strictObject({
  opening: z.string().min(1).max(120).describe('its name in the hull file'),
  kept: z.enum(['shut', 'open-at-sea', 'open-at-worst']),
});
export type OpeningUse = z.infer<typeof openingUse>;

/** An opening and the mildest state in which it counts as open; null: it is kept shut in all. */
export interface OpeningKept {
  readonly opening: Opening;
  readonly openFrom: OpeningState | null;
}

/**
 * Every opening of a hull as it is kept. What nothing closes weathertight is open in every state,
 * whatever is said of it. Throws `loading-unknown` for a name the hull does not have,
 * `input-contradiction` for one given twice or shut where nothing shuts it.
 */
export function openingsKept(hull: Hull, uses: readonly OpeningUse[]): readonly OpeningKept[] {
  for (const [k, { opening, kept }] of uses.entries()) {
    const there = hull.openings.find(({ name }) => name === opening);
    if (there === undefined) throw new Fault('loading-unknown', 'openings', opening);
    if (uses.findIndex((one) => one.opening === opening) < k) {
      throw new Fault('input-contradiction', 'openings', `${opening} stands twice`);
    }
    if (there.closing === 'unprotected' && kept === 'shut') {
      throw new Fault(
        'input-contradiction',
        'openings',
        `${opening} is kept shut, and the hull file says that nothing closes it`,
      );
    }
  }
  return hull.openings.map((opening): OpeningKept => {
    if (opening.closing === 'unprotected') return { opening, openFrom: 'weathertight' };
    const kept = uses.find((one) => one.opening === opening.name)?.kept ?? 'shut';
    return { opening, openFrom: kept === 'shut' ? null : kept };
  });
}

/** Whether it counts as open in that state. */
export function isOpenIn({ openFrom }: OpeningKept, state: OpeningState): boolean {
  return openFrom !== null && OPENING_STATES.indexOf(openFrom) <= OPENING_STATES.indexOf(state);
}
