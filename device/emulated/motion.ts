import { MARRAM_ROLL, MARRAM_TUBE } from './marram.ts';
import {
  GRAVITY_M_S2,
  type RollLoad,
  type RollState,
  restingHeelRad,
  rollAcceleration,
  rollAfterStep,
  type VesselForm,
} from './vessel.ts';
import { restingDifferenceMm, type TubeState, tubeAfterStep, tubeDynamics } from './water-tube.ts';

/** The fixed step of the integration. */
export const WORLD_STEP_S = 0.02;
/** Steps kept for looking back: over five seconds. */
const KEPT_STEPS = 256;
/** The world ends after ten days. */
const MOST_STEPS = (10 * 86_400) / WORLD_STEP_S;

interface Instant {
  readonly roll: RollState;
  readonly accelerationRadS2: number;
  readonly tube: TubeState;
}

/** How she lies at a time between two steps. */
export interface Attitude {
  readonly heelRad: number;
  readonly accelerationRadS2: number;
  /** Level of the tube's starboard leg over its port leg. */
  readonly differenceMm: number;
}

/** What turns her at the end of a step; her heel is as foreseen from the step before. */
export type Loading = (step: number, foreseenHeelRad: number) => RollLoad;

/**
 * Roll and water tube, integrated step by step as far as they are asked for, and remembered for a
 * few seconds. Steps do not depend on the times asked for.
 */
export class Motion {
  readonly #form: VesselForm;
  readonly #loading: Loading;
  readonly #dynamics = tubeDynamics(MARRAM_TUBE);
  readonly #kept: Instant[] = [];
  #load: RollLoad;
  #step = 0;

  /** Begins at rest in the reference state. */
  constructor(form: VesselForm, loading: Loading) {
    this.#form = form;
    this.#loading = loading;
    const heelRad = restingHeelRad(form, { transverseTM: 0, verticalTM: 0 });
    this.#load = loading(0, heelRad);
    const roll = { heelRad, rateRadS: 0 };
    this.#kept.push({
      roll,
      accelerationRadS2: rollAcceleration(form, MARRAM_ROLL, roll, this.#load),
      tube: { differenceMm: restingDifferenceMm(MARRAM_TUBE, heelRad), rateMmS: 0 },
    });
  }

  /** RangeError before 0, after ten days, and for what is longer ago than it remembers. */
  at(timeS: number): Attitude {
    if (!(timeS >= 0)) throw new RangeError(`the simulated world begins at 0, not at ${timeS}`);
    const step = Math.floor(timeS / WORLD_STEP_S);
    if (step >= MOST_STEPS) throw new RangeError('the simulated world ends after ten days');
    while (this.#step < step + 1) this.#advance();
    if (step <= this.#step - KEPT_STEPS) {
      throw new RangeError(`the simulated world has forgotten ${timeS} s`);
    }
    const before = this.#kept[step % KEPT_STEPS]!;
    const after = this.#kept[(step + 1) % KEPT_STEPS]!;
    const share = timeS / WORLD_STEP_S - step;
    return {
      heelRad: hermite(
        [before.roll.heelRad, before.roll.rateRadS],
        [after.roll.heelRad, after.roll.rateRadS],
        share,
      ),
      accelerationRadS2:
        before.accelerationRadS2 + share * (after.accelerationRadS2 - before.accelerationRadS2),
      differenceMm: hermite(
        [before.tube.differenceMm, before.tube.rateMmS],
        [after.tube.differenceMm, after.tube.rateMmS],
        share,
      ),
    };
  }

  #advance(): void {
    const before = this.#kept[this.#step % KEPT_STEPS]!;
    const step = this.#step + 1;
    const foreseenRad = before.roll.heelRad + before.roll.rateRadS * WORLD_STEP_S;
    const loads = { before: this.#load, after: this.#loading(step, foreseenRad) };
    const roll = rollAfterStep(this.#form, MARRAM_ROLL, before.roll, loads, WORLD_STEP_S);
    const accelerationRadS2 = rollAcceleration(this.#form, MARRAM_ROLL, roll, loads.after);
    const tube = tubeAfterStep(
      this.#dynamics,
      before.tube,
      {
        beforeMm: drivenMm(before.roll.heelRad, before.accelerationRadS2),
        afterMm: drivenMm(roll.heelRad, accelerationRadS2),
      },
      WORLD_STEP_S,
    );
    this.#load = loads.after;
    this.#kept[step % KEPT_STEPS] = { roll, accelerationRadS2, tube };
    this.#step = step;
  }
}

/** What stands at a height over the roll axis is tilted by the roll's own acceleration too. */
export function apparentHeelRad(
  heelRad: number,
  accelerationRadS2: number,
  heightM: number,
): number {
  return heelRad - (heightM / GRAVITY_M_S2) * accelerationRadS2;
}

function drivenMm(heelRad: number, accelerationRadS2: number): number {
  const { heightOverRollAxisM } = MARRAM_TUBE;
  return restingDifferenceMm(
    MARRAM_TUBE,
    apparentHeelRad(heelRad, accelerationRadS2, heightOverRollAxisM),
  );
}

/** Cubic over one step between two values with their rates (Hermite). */
function hermite(
  [start, startRate]: readonly [number, number],
  [end, endRate]: readonly [number, number],
  share: number,
): number {
  const left = 1 - share;
  return (
    (1 + 2 * share) * left * left * start +
    share * left * left * startRate * WORLD_STEP_S +
    share * share * (3 - 2 * share) * end -
    share * share * left * endRate * WORLD_STEP_S
  );
}
