/** The two one-sided sums of a tabular CUSUM. */
export interface CusumSums {
  readonly up: number;
  readonly down: number;
}

/**
 * Tabular CUSUM (Montgomery and Runger, Applied Statistics and Probability for Engineers,
 * section 16-8): deviations from a target beyond an allowance pile up on either side and are
 * forgotten at zero. `allowance` is K, in the unit of x.
 */
export class Cusum {
  up = 0;
  down = 0;
  /** Values since each sum was last zero: how long ago the deviation began. */
  upRun = 0;
  downRun = 0;
  private readonly target: number;
  private readonly allowance: number;

  constructor(target: number, allowance: number) {
    this.target = target;
    this.allowance = allowance;
  }

  push(x: number): CusumSums {
    this.up = Math.max(0, this.up + x - (this.target + this.allowance));
    this.down = Math.max(0, this.down + (this.target - this.allowance) - x);
    this.upRun = this.up > 0 ? this.upRun + 1 : 0;
    this.downRun = this.down > 0 ? this.downRun + 1 : 0;
    return { up: this.up, down: this.down };
  }

  reset(): void {
    this.up = 0;
    this.down = 0;
    this.upRun = 0;
    this.downRun = 0;
  }
}
