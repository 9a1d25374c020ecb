import { SAMPLES_IN_BLOCK } from './roll-model.ts';

/** The samples of one block as they come; a block with any of them missing is NaN. */
export class GrowingBlock {
  private block: number | null = null;
  private sum = 0;
  private count = 0;

  forget(): void {
    this.block = null;
  }

  /** A sample of this block comes: what is left unfinished of an earlier one ends. */
  closeBefore(block: number): number | null {
    return this.block === null || this.block === block ? null : this.close();
  }

  /** Adds a sample; returns the mean when the block is full. */
  add(block: number, heelDeg: number | null): number | null {
    if (this.block === null) {
      this.block = block;
      this.sum = 0;
      this.count = 0;
    }
    this.sum += heelDeg ?? Number.NaN;
    this.count += 1;
    return this.count < SAMPLES_IN_BLOCK ? null : this.close();
  }

  private close(): number {
    this.block = null;
    return this.count === SAMPLES_IN_BLOCK ? this.sum / this.count : Number.NaN;
  }
}
