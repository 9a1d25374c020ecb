import type { LaptopMatter } from '#core/record/laptop-line.ts';

/** What one look at one matter found. `found` is for people: what, and how much. */
export interface Finding {
  readonly matter: LaptopMatter;
  readonly station: string | null;
  readonly severity: 'well' | 'notice';
  readonly found: string;
}

/**
 * A figure that is bad under a bound counts as bad until it is over a higher one, so that one
 * that trembles about the bound does not write a line at every look.
 */
export function isBad(
  value: number,
  was: boolean,
  bounds: { readonly badUnder: number; readonly wellFrom: number },
): boolean {
  return value < (was ? bounds.wellFrom : bounds.badUnder);
}
