import type { Line } from '#core/record/line.ts';

/** Ten minutes of a busy day and more; older receipts are checked by `verify`. */
const MOST_HEADS = 8192;

/** The chain's heads of the last lines: what a receipt or a signature that comes in now is held to. */
export class RecentHeads {
  readonly #headOf = new Map<number, string>();

  /** A line carries the head of the lines before it. */
  follow(line: Line): void {
    this.#headOf.set(line.n, line.prev);
    this.#headOf.delete(line.n - MOST_HEADS);
  }

  /** Of the first `lines` lines; null when that is too long ago, or no line follows them yet. */
  of(lines: number): string | null {
    return this.#headOf.get(lines) ?? null;
  }
}
