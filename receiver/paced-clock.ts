import type { Clock } from '#core/time/clock.ts';
import type { ClockStart } from './machine-clock.ts';

/** A phase error is worked off over this many wall seconds. */
const LOCK_OVER_WALL_S = 2;
/** Farther behind than this many wall seconds at the pace: there is no use in hurrying, it jumps. */
const MOST_BEHIND_WALL_S = 5;
const SLOWEST_SHARE = 0.1;

/**
 * The receiver's clock beside a simulated vessel: runs at the pace the simulation holds and is
 * drawn slowly to the time the simulation says it has. Never goes back; when it is ahead it
 * slows to a tenth until the simulation has come up. Its wall reading runs along, so that a
 * paced day reads like a day.
 */
export class PacedClock implements Clock {
  readonly #machine: Clock;
  readonly #wallOfZeroMs: number;
  #anchorMachineS: number;
  #anchorS: number;
  #rate = 1;

  constructor(machine: Clock, last: ClockStart | null) {
    this.#machine = machine;
    this.#anchorMachineS = machine.monotonicS();
    this.#anchorS = last?.monotonicS ?? 0;
    this.#wallOfZeroMs = (last?.wallMs ?? machine.wallMs()) - this.#anchorS * 1000;
  }

  monotonicS(): number {
    return this.#at(this.#machine.monotonicS());
  }

  wallMs(): number {
    return this.#wallOfZeroMs + this.monotonicS() * 1000;
  }

  /** Receiver time as it should be now, and the pace held (simulated seconds a wall second). */
  steer(targetS: number, paceHeld: number): void {
    // One reading of the machine for both, or the time between two readings would be taken back.
    const machineS = this.#machine.monotonicS();
    const nowS = this.#at(machineS);
    const behindS = targetS - nowS;
    const jumps = behindS > MOST_BEHIND_WALL_S * Math.max(1, paceHeld);
    this.#anchorMachineS = machineS;
    this.#anchorS = jumps ? targetS : nowS;
    this.#rate = jumps
      ? paceHeld
      : Math.max(SLOWEST_SHARE * paceHeld, paceHeld + behindS / LOCK_OVER_WALL_S);
  }

  #at(machineS: number): number {
    return this.#anchorS + (machineS - this.#anchorMachineS) * this.#rate;
  }
}
