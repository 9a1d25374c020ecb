import type { Clock } from '#core/time/clock.ts';

/** A wall clock is drawn to its source in smaller steps than this; a sleep is longer. */
const JUMP_S = 1;

/**
 * Tells when the station's clock may have become another: its wall reading went on by more, or
 * less, than its monotonic one. The machine slept, or somebody set the clock: which of the two
 * cannot be told, and a pairing made anew for nothing costs little.
 */
export class ClockJumps {
  readonly #clock: Clock;
  #aheadS: number | null = null;
  #lastS: number | null = null;

  constructor(clock: Clock) {
    this.#clock = clock;
  }

  /** Station time of the last jump; null: none in this run. */
  get lastS(): number | null {
    return this.#lastS;
  }

  /** To be called often: a jump is placed where it is first seen. */
  look(): void {
    const stationS = this.#clock.monotonicS();
    const aheadS = this.#clock.wallMs() / 1000 - stationS;
    if (this.#aheadS !== null && Math.abs(aheadS - this.#aheadS) > JUMP_S) this.#lastS = stationS;
    this.#aheadS = aheadS;
  }
}
