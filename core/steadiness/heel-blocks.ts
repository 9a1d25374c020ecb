import { BLOCK_S } from './roll-model.ts';

/**
 * A stretch of one instrument as means of BLOCK_S each, the unit the model is fitted to. A mean
 * over a block keeps a damped oscillation a damped oscillation, so nothing is lost of it.
 */
export interface HeelBlocks {
  /** Mean heel of each block, degrees; NaN where a block is missing or not used. */
  readonly heelDeg: ArrayLike<number>;
  /** NaN, or the size of the ringing that begins with this block (the first, or after a stretch not used). */
  readonly ringingDeg: ArrayLike<number>;
}

/** After so many blocks not used nothing is known of the roll, and a ringing may begin. */
export const RESTART_AFTER_BLOCKS = 3;
/** Blocks over which the size of a ringing is taken. */
const RINGING_BLOCKS = 12;

/**
 * Marks where a ringing may begin: the first used block, and the first after several blocks not
 * used. Its size is half the range of what follows.
 */
export function blocksWithRinging(heelDeg: ArrayLike<number>): HeelBlocks {
  const ringingDeg = new Float64Array(heelDeg.length).fill(Number.NaN);
  let missing = RESTART_AFTER_BLOCKS;
  for (let k = 0; k < heelDeg.length; k++) {
    if (Number.isNaN(heelDeg[k])) {
      missing += 1;
      continue;
    }
    if (missing >= RESTART_AFTER_BLOCKS) ringingDeg[k] = halfRange(heelDeg, k);
    missing = 0;
  }
  return { heelDeg, ringingDeg };
}

function halfRange(heelDeg: ArrayLike<number>, from: number): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let k = from; k < Math.min(from + RINGING_BLOCKS, heelDeg.length); k++) {
    const value = heelDeg[k]!;
    if (Number.isNaN(value)) continue;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return (most - least) / 2;
}

/** Block means of values on a uniform grid of `stepS`; a block with any value missing is missing. */
export function blockMeans(values: readonly (number | null)[], stepS: number): Float64Array {
  const size = Math.round(BLOCK_S / stepS);
  const means = new Float64Array(Math.floor(values.length / size));
  for (let block = 0; block < means.length; block++) {
    let sum = 0;
    for (let i = 0; i < size; i++) sum += values[block * size + i] ?? Number.NaN;
    means[block] = sum / size;
  }
  return means;
}
