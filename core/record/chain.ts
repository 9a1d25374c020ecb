import type { HexDigest } from '../digest/sha-256.ts';
import { FIRST_PREV } from './line.ts';

/** Where a record stands: how many lines it has and the SHA-256 of the last one's bytes. */
export interface ChainHead {
  /** Number the next line will carry; lines before it exist. */
  readonly next: number;
  /** What the next line carries as `prev`. */
  readonly head: string;
}

export const EMPTY_CHAIN: ChainHead = { next: 0, head: FIRST_PREV };

/** The chain after a line; `lineBytes` end in the line's own newline. */
export function chainAfter(chain: ChainHead, lineBytes: Uint8Array, digest: HexDigest): ChainHead {
  return { next: chain.next + 1, head: digest(lineBytes) };
}
