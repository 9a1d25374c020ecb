import type { Clock } from '#core/time/clock.ts';
import type { Finding } from './matter.ts';

/** A step of the wall clock against the monotonic one over this is told. */
export const MOST_STEP_S = 2;
/** A step is told this long; then the wall counts as set. */
const TOLD_FOR_S = 600;

/**
 * Does the machine's wall clock run evenly, and is it after what the record says? Only people read
 * it; heel and periods rest on the monotonic clock. A laptop that slept shows as a step as well
 * where its monotonic clock stands still meanwhile.
 */
export class ClockCheck {
  readonly #machine: Clock;
  readonly #lastLineWallMs: number | null;
  #offsetS: number;
  #stepped: { readonly found: string; readonly atS: number } | null = null;

  constructor(machine: Clock, lastLineWallMs: number | null) {
    this.#machine = machine;
    this.#lastLineWallMs = lastLineWallMs;
    this.#offsetS = this.#offset();
  }

  finding(): Finding {
    const well = { matter: 'clock', station: null, severity: 'well' } as const;
    const behindS = ((this.#lastLineWallMs ?? -Infinity) - this.#machine.wallMs()) / 1000;
    if (behindS > MOST_STEP_S)
      return {
        ...well,
        severity: 'notice',
        found: `the clock is ${span(behindS)} before the record's last line at opening`,
      };
    const nowS = this.#machine.monotonicS();
    const offsetS = this.#offset();
    const stepS = offsetS - this.#offsetS;
    this.#offsetS = offsetS;
    if (Math.abs(stepS) > MOST_STEP_S)
      this.#stepped = {
        atS: nowS,
        found: `the clock was set ${stepS > 0 ? 'forward' : 'back'} by ${span(Math.abs(stepS))}, or the machine slept`,
      };
    if (this.#stepped !== null && nowS - this.#stepped.atS > TOLD_FOR_S) this.#stepped = null;
    return this.#stepped === null
      ? { ...well, found: 'the clock runs evenly' }
      : { ...well, severity: 'notice', found: this.#stepped.found };
  }

  #offset(): number {
    return this.#machine.wallMs() / 1000 - this.#machine.monotonicS();
  }
}

function span(seconds: number): string {
  return seconds < 120 ? `${seconds.toFixed(1)} s` : `${(seconds / 60).toFixed(1)} min`;
}
