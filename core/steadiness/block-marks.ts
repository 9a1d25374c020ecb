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

/** Blocks of a state that are looked back over. */
const MOST_TOLD = 375;

/** Blocks of a state lately: before the time asked for those that count (NaN: does not), then all. */
export interface Told {
  readonly heelDeg: readonly number[];
  /** Where in them the time asked for is. */
  readonly at: number;
}

export function storyOf(marked: MarkedBlocks, notBeforeS: number, atS: number): Told {
  const { firstBlock, heelDeg, used } = marked;
  const blockAt = (timeS: number) => Math.max(0, Math.floor(timeS / BLOCK_S) - firstBlock);
  const from = Math.max(blockAt(notBeforeS), heelDeg.length - MOST_TOLD);
  const at = blockAt(atS) - from;
  const told = heelDeg
    .slice(from)
    .map((heel, k) => (k < at && !used[from + k] ? Number.NaN : heel));
  return { heelDeg: told, at };
}

/** What counts of the blocks lately (NaN: does not); the first begins at `fromS`. */
export interface Counted {
  readonly heelDeg: readonly number[];
  readonly fromS: number;
}

export function countedOf({ firstBlock, heelDeg, used }: MarkedBlocks): Counted | null {
  const first = used.indexOf(true);
  if (first < 0) return null;
  const from = Math.max(first, heelDeg.length - MOST_TOLD);
  const counted = heelDeg.slice(from).map((heel, k) => (used[from + k] ? heel : Number.NaN));
  return { heelDeg: counted, fromS: (firstBlock + from) * BLOCK_S };
}

/** Half the range of these block means; missing ones are passed over, of none it is 0. */
export function halfRangeDeg(heelDeg: readonly number[]): number {
  const values = heelDeg.filter((value) => !Number.isNaN(value));
  return values.length === 0 ? 0 : (Math.max(...values) - Math.min(...values)) / 2;
}
