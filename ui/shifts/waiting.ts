import type { StopTarget } from '#core/record/line.ts';
import { uncertaintyAt } from '#core/session/stop-target.ts';
import { fixed } from '../show/figure.ts';

/**
 * What one more minute of waiting buys in KG (GM where KM is not known), as a person would say it;
 * null before it can be said. `errorDeg` is the standard error now, `inAMinuteDeg` that to come.
 */
export function waitingWords(
  target: StopTarget | null,
  errorDeg: number | null,
  inAMinuteDeg: number | null,
  of: 'KG' | 'GM',
): string | null {
  if (target === null || errorDeg === null || inAMinuteDeg === null) return null;
  const boughtMm = 1000 * (uncertaintyAt(target, errorDeg) - uncertaintyAt(target, inAMinuteDeg));
  if (boughtMm < 0.05) return `another minute buys less than 0.1 mm of ${of}`;
  return `another minute buys ${fixed(boughtMm, 1)} mm of ${of}`;
}
