import { fitRoll, type RollFit } from './fit-roll.ts';
import { blocksWithRinging, type HeelBlocks } from './heel-blocks.ts';
import type { RollPrior } from './roll-prior.ts';

export interface QuieterHalf {
  /** First block of the later half. */
  readonly from: number;
  readonly blocks: HeelBlocks;
  readonly fit: RollFit;
}

/** A driven roll this many times that of the later half is not the same roll; nor is a tiny one. */
const WILDER = 3;
const LEAST_WILD_DEG = 0.02;

/**
 * While the day has taught nothing there is no judge of the first blocks: a push or a wake among
 * them makes the whole look far wilder than its later half. Returns the later half then, else null.
 */
export function quieterHalf(
  blocks: HeelBlocks,
  whole: RollFit,
  prior: RollPrior,
): QuieterHalf | null {
  const used = Array.from(blocks.heelDeg, (value) => !Number.isNaN(value));
  let left = Math.floor(used.filter(Boolean).length / 2);
  const from = used.findIndex((one) => one && left-- === 0);
  const later = blocksWithRinging(
    Float64Array.from(blocks.heelDeg, (value, k) => (k < from ? Number.NaN : value)),
  );
  const fit = fitRoll(later, prior);
  const quieterDeg = Math.max(fit.model.rollDeg, fit.model.noiseDeg);
  const wild = whole.model.rollDeg;
  if (wild < WILDER * quieterDeg || wild < LEAST_WILD_DEG) return null;
  return { from, blocks: later, fit };
}
