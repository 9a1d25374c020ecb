import { Fault } from '../fault/fault.ts';
import { type ChainHead, EMPTY_CHAIN } from './chain.ts';
import type { Line } from './line.ts';

/** What somebody noted of a record: so many lines, and the SHA-256 of the last of them. */
export interface KnownHead {
  readonly lines: number;
  readonly head: string;
}

/**
 * Holds a record against a head known from elsewhere (a receipt, a note, an e-mail). A chain
 * proves that each line follows from the one before, never that lines were not taken off its end
 * or its end written anew: only a head kept outside the record shows that.
 */
export class KnownHeadCheck {
  readonly #known: KnownHead;
  #seen: string | null = null;

  constructor(known: KnownHead) {
    this.#known = known;
    if (known.lines === EMPTY_CHAIN.next) this.#seen = EMPTY_CHAIN.head;
  }

  /** A line that follows: its `prev` is proven to be the head of the lines before it. */
  follow(line: Line): void {
    if (line.n === this.#known.lines) this.#seen = line.prev;
  }

  /** Throws `record-chain` when the record, which ends in `chain`, does not hold what was known. */
  end(chain: ChainHead): void {
    const { lines, head } = this.#known;
    if (chain.next < lines)
      throw new Fault(
        'record-chain',
        `line ${chain.next}`,
        `the record ends here, but ${lines} lines were known: its end was taken off`,
      );
    const seen = chain.next === lines ? chain.head : this.#seen;
    if (seen !== head)
      throw new Fault(
        'record-chain',
        `line ${lines - 1}`,
        `the head of the first ${lines} lines is ${seen}, known was ${head}: a line up to this one was written anew`,
      );
  }
}
