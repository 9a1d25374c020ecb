import type { Advice } from '../quantity/advice.ts';
import { degreesFromRadians } from '../quantity/angle.ts';

/** Heels at which deck edge and openings come under water to one side, radians; null within 90 degrees never. */
export interface HeelsOfSide {
  readonly side: 'port' | 'starboard';
  readonly deckEdgeRad: number | null;
  readonly openings: readonly { readonly name: string; readonly immersedRad: number | null }[];
}

/** GM is a guess before the first shift: openings and deck edge are looked at this many times as far. Our setting. */
export const LOOK_AT_TIMES_PLANNED = 2;

/** Deck edge and openings within twice the largest planned heel of each side, degrees. */
export function nearTheWater(
  sides: readonly HeelsOfSide[],
  mostHeelDeg: { readonly port: number; readonly starboard: number },
): Advice[] {
  return sides.flatMap(({ side, deckEdgeRad, openings }): Advice[] => {
    const limit = LOOK_AT_TIMES_PLANNED * mostHeelDeg[side];
    const near = (heelRad: number | null): number | null => {
      const heelDeg = heelRad === null ? null : degreesFromRadians(heelRad);
      return heelDeg !== null && heelDeg <= limit ? heelDeg : null;
    };
    const deck = near(deckEdgeRad);
    const wet = openings.flatMap(({ name, immersedRad }): Advice[] => {
      const found = near(immersedRad);
      if (found === null) return [];
      return [{ code: 'opening-near', where: `${name}, to ${side}`, found, limit, unit: 'deg' }];
    });
    return deck === null
      ? wet
      : [{ code: 'deck-edge-near', where: `to ${side}`, found: deck, limit, unit: 'deg' }, ...wet];
  });
}
