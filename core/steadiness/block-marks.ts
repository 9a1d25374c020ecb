import { blocksWithRinging, type HeelBlocks } from './heel-blocks.ts';
import { BLOCK_S } from './roll-model.ts';

/** The blocks of a state: their means (NaN: missing) and which of them count. */
export interface MarkedBlocks {
  readonly firstBlock: number;
  readonly heelDeg: readonly number[];
  readonly used: readonly boolean[];
}

/** A stretch of time, receiver seconds. */
export interface Span {
  readonly fromS: number;
  readonly toS: number;
}

/** First and last time of what counts, receiver seconds; null when nothing does. */
export function windowOf({ firstBlock, used }: MarkedBlocks): Span | null {
  const first = used.indexOf(true);
  if (first < 0) return null;
  return {
    fromS: (firstBlock + first) * BLOCK_S,
    toS: (firstBlock + used.lastIndexOf(true) + 1) * BLOCK_S,
  };
}

/** The blocks that count, with where a ringing may begin. */
export function blocksThatCount({ heelDeg, used }: MarkedBlocks): HeelBlocks {
  return blocksWithRinging(
    Float64Array.from(heelDeg, (value, k) => (used[k] ? value : Number.NaN)),
  );
}

/**
 * Blocks that do not count, have a value, begin no earlier than `notBeforeS`, reach into the span
 * and into none of `except`: those that a person can answer for.
 */
export function blocksToAnswerFor(
  { firstBlock, heelDeg, used }: MarkedBlocks,
  notBeforeS: number,
  span: Span,
  except: readonly Span[],
): number[] {
  return heelDeg.flatMap((heel, k) => {
    const startS = (firstBlock + k) * BLOCK_S;
    const isIn = (one: Span) => startS + BLOCK_S > one.fromS && startS < one.toS;
    const stays = used[k] || Number.isNaN(heel) || startS < notBeforeS;
    return stays || !isIn(span) || except.some(isIn) ? [] : [k];
  });
}

/** Half the range of these block means; missing ones are passed over, of none it is 0. */
export function halfRangeDeg(heelDeg: readonly number[]): number {
  const values = heelDeg.filter((value) => !Number.isNaN(value));
  return values.length === 0 ? 0 : (Math.max(...values) - Math.min(...values)) / 2;
}
