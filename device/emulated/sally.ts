/**
 * People who set her rolling for a roll test: they cross the deck in time with her, three times
 * over and back, and stand still. A moment that begins and ends at nothing.
 */
export const SALLY_CYCLES = 3;

/** Moment a time after they began, t·m, starboard down positive; nothing before and after. */
export function sallyMomentTM(sinceS: number, periodS: number, mostTM: number): number {
  if (!(sinceS > 0 && sinceS < SALLY_CYCLES * periodS)) return 0;
  return mostTM * Math.sin((2 * Math.PI * sinceS) / periodS);
}
