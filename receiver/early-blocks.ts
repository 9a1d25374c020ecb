import type { SampleBlock } from '#core/sample/stream-item.ts';
import type { BoardMap, TimeMap } from './time-map.ts';

/** Blocks of about a second: half an hour of four boards. */
const MOST_KEPT = 7200;

interface EarlyBlock {
  readonly block: SampleBlock;
  readonly board: BoardMap | null;
  readonly atS: Float64Array | null;
}

/** Blocks of the present state that a record opened again holds, with the times they had when they came. */
export class EarlyBlocks {
  readonly #timeMap: TimeMap;
  #kept: EarlyBlock[] = [];

  constructor(timeMap: TimeMap) {
    this.#timeMap = timeMap;
  }

  keep(block: SampleBlock): void {
    const board = this.#timeMap.boardMap(block.stream);
    this.#kept.push({ block, board, atS: this.#timeMap.timesOf(block, board)?.atS ?? null });
    if (this.#kept.length > MOST_KEPT) this.#kept.shift();
  }

  forget(): void {
    this.#kept = [];
  }

  /** All that can be placed in time by now; nothing is kept on. */
  taken(): { readonly block: SampleBlock; readonly atS: Float64Array }[] {
    const kept = this.#kept;
    this.#kept = [];
    return kept.flatMap(({ block, board, atS }) => {
      const known = board ?? this.#timeMap.boardMap(block.stream);
      const timesS = atS ?? this.#timeMap.timesOf(block, known)?.atS;
      return timesS === undefined ? [] : [{ block, atS: timesS }];
    });
  }
}
