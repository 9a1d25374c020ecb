import type { DisturbanceSwitches, Simulation } from '#core/record/line.ts';
import type { World } from './world.ts';

/** What the simulated vessel shall do from a time on; places are of all weights, once they are down. */
export interface WorldCommand {
  /** Number of the arrangement, echoed by `status` once every weight is down. */
  readonly state: number;
  readonly weights: readonly { weight: string; xM: number; yM: number; zM: number }[];
  readonly disturbances: DisturbanceSwitches;
}

/**
 * The simulated vessel at her quay. One seed and the same commands give the same world in every
 * thread, whatever the times of the queries in between.
 */
export interface SimulatedWorld extends World {
  /**
   * Orders come in order of their time, and before any query later than it: the world is not
   * rewound. Throws a RangeError otherwise, so that two threads never differ in silence.
   */
  command(atS: number, order: WorldCommand): void;
  status(timeS: number): {
    carrying: string[];
    settledState: number;
    truth: Simulation['truth'];
  };
}

/** Upright and still, until the vessel comes aboard. */
export function createSimulatedWorld({ seed }: { seed: number }): SimulatedWorld {
  let settledState = 0;
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seed ${seed} is not a whole number`);
  return {
    specificForceG: () => ({ xG: 0, yG: 0, zG: 1 }),
    legLevelMm: () => 500,
    temperatureC: () => 12,
    command: (_atS, order) => {
      settledState = order.state;
    },
    status: () => ({
      carrying: [],
      settledState,
      truth: { gmFluidM: 0.94, displacementT: 46.8 },
    }),
  };
}
