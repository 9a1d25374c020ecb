import type { DisturbanceSwitches, Simulation } from '#core/record/line.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Clock } from '#core/time/clock.ts';
import type { Simulate, SimulationStatus } from '#core/wire/link-message.ts';

/** A held pace is written when it has differed by more than a tenth for this long on the wall. */
const PACE_CHANGED_SHARE = 0.1;
const PACE_CHANGED_FOR_S = 5;

/**
 * The simulated vessel as the receiver deals with her: what she said last, and what she is told.
 * She knows nothing that is not ordered here or drawn from her own seed.
 */
export class SimulatedVessel {
  readonly #machine: Clock;
  #send: ((order: Simulate) => void) | null = null;
  #status: SimulationStatus | null = null;
  #paceDiffersSinceS: number | null = null;

  constructor(machine: Clock) {
    this.#machine = machine;
  }

  get status(): SimulationStatus | null {
    return this.#status;
  }

  get connected(): boolean {
    return this.#send !== null;
  }

  /** Are her weights on their way to a state other than the day's, or still being carried to it? */
  isRestless(state: number): boolean {
    const status = this.#status;
    return (
      this.connected &&
      status !== null &&
      (status.settledState !== state || status.carrying.length > 0)
    );
  }

  connect(send: (order: Simulate) => void): void {
    this.#send = send;
    this.#status = null;
    this.#paceDiffersSinceS = null;
  }

  disconnect(): void {
    this.#send = null;
  }

  /** Takes her status; returns what the record should now say of her pace, or null when it says so already. */
  heard(status: SimulationStatus, written: Simulation | null): Simulation | null {
    this.#status = status;
    if (written === null) return null;
    const differs =
      Math.abs(status.paceHeld - written.paceHeld) > PACE_CHANGED_SHARE * written.paceHeld;
    const nowS = this.#machine.monotonicS();
    if (!differs) this.#paceDiffersSinceS = null;
    else this.#paceDiffersSinceS ??= nowS;
    if (this.#paceDiffersSinceS === null || nowS - this.#paceDiffersSinceS < PACE_CHANGED_FOR_S)
      return null;
    this.#paceDiffersSinceS = null;
    return { ...written, paceAsked: status.paceAsked, paceHeld: status.paceHeld };
  }

  /** Tells her where every weight shall be, and how the day shall be; nothing when none is connected. */
  order(
    session: SessionState,
    change?: {
      readonly pace?: number;
      readonly disturbances?: DisturbanceSwitches;
      readonly sway?: boolean;
    },
  ): void {
    const simulation = session.simulation;
    const last = session.states.at(-1);
    if (this.#send === null || simulation === null || last === undefined) return;
    const places = new Map(Object.entries(session.weightsAt));
    for (const move of last.moves) places.set(move.weight, move.to);
    this.#send({
      type: 'simulate',
      state: last.state,
      weights: [...places].map(([weight, place]) => ({ weight, ...place })),
      disturbances: change?.disturbances ?? simulation.disturbances,
      pace: change?.pace ?? simulation.paceAsked,
      ...(change?.sway === true ? { sway: true } : {}),
    });
  }
}
