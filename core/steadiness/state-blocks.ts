import {
  type Counted,
  countedOf,
  halfRangeDeg,
  type MarkedBlocks,
  type Span,
  windowOf,
} from './block-marks.ts';
import { BLOCK_S } from './roll-model.ts';

/** The blocks of one instrument in the present state, and which of them count. */
export class StateBlocks {
  protected firstBlock = 0;
  protected heelDeg: number[] = [];
  protected used: boolean[] = [];
  protected usedBlocks = 0;

  protected beginBlocks(firstBlock: number): void {
    this.firstBlock = firstBlock;
    this.heelDeg = [];
    this.used = [];
    this.usedBlocks = 0;
  }

  /** The oldest are forgotten. */
  protected dropBlocks(count: number): void {
    this.leaveOut(0, count);
    this.heelDeg.splice(0, count);
    this.used.splice(0, count);
    this.firstBlock += count;
  }

  /** What has come since then and has a value counts. */
  protected takeIn(fromS: number): void {
    for (let k = this.blockAt(fromS); k < this.used.length; k++) {
      if (this.used[k] || Number.isNaN(this.heelDeg[k])) continue;
      this.used[k] = true;
      this.usedBlocks += 1;
    }
  }

  get countedS(): number {
    return this.usedBlocks * BLOCK_S;
  }

  protected leaveOut(from: number, to: number): void {
    for (let k = from; k < to; k++) {
      if (this.used[k]) this.usedBlocks -= 1;
      this.used[k] = false;
    }
  }

  protected get marked(): MarkedBlocks {
    return { firstBlock: this.firstBlock, heelDeg: this.heelDeg, used: this.used };
  }

  protected blockAt(atS: number): number {
    return Math.max(0, Math.floor(atS / BLOCK_S) - this.firstBlock);
  }

  /** Only what counts, from the first of it on. */
  counted(): Counted | null {
    return countedOf(this.marked);
  }

  /** Half the range of the last blocks that have a value, used or not. */
  recentRangeDeg(blocks = 12): number {
    return halfRangeDeg(this.heelDeg.slice(-blocks));
  }

  /** First and last time of what counts, receiver seconds; null when nothing does. */
  window(): Span | null {
    return windowOf(this.marked);
  }

  /** Mean heel of a complete block of this state; NaN when missing, undefined when not (yet) there. */
  heelOfBlock(block: number): number | undefined {
    return this.heelDeg[block - this.firstBlock];
  }

  /** The last complete block: its number in time, and its mean (NaN when missing). */
  lastBlock(): { block: number; heelDeg: number } {
    const block = this.firstBlock + this.heelDeg.length - 1;
    return { block, heelDeg: this.heelDeg.at(-1) ?? Number.NaN };
  }
}
