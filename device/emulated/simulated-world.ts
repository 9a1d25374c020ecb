import { createHashNoise, streamFromSeed } from '#core/numerics/random.ts';
import type { DisturbanceSwitches, Simulation } from '#core/record/line.ts';
import { INSTRUMENTS } from '#core/sample/layout.ts';
import { createBoxTemperatures } from './box-temperatures.ts';
import { Crane } from './crane.ts';
import {
  MARRAM_ROLL,
  marramBerth,
  marramMountings,
  marramReality,
  marramTest,
  marramTruth,
} from './marram.ts';
import { apparentHeelRad, Motion, WORLD_STEP_S } from './motion.ts';
import { Quay } from './quay.ts';
import { sallyMomentTM } from './sally.ts';
import { gmM, naturalPeriodS, type VesselForm } from './vessel.ts';
import type { World } from './world.ts';

/** What the simulated vessel shall do from a time on; places are of all weights, once they are down. */
export interface WorldCommand {
  /** Number of the arrangement, echoed by `status` once every weight is down. */
  readonly state: number;
  readonly weights: readonly { weight: string; xM: number; yM: number; zM: number }[];
  readonly disturbances: DisturbanceSwitches;
  /** People set her rolling once, from now on, and stand still. */
  readonly sway?: boolean;
}

/**
 * The simulated vessel at her quay. One seed and the same commands give the same world in every
 * thread, whatever the times of the queries in between.
 */
export interface SimulatedWorld extends World {
  /**
   * Orders come in order of their time, and before any query later than it: the world is not
   * rewound. Throws a RangeError otherwise, so that two threads never differ in silence. The
   * order takes effect within two steps (0.04 s).
   */
  command(atS: number, order: WorldCommand): void;
  /** Does not move the world on, so any time may be asked for. */
  status(timeS: number): {
    carrying: string[];
    settledState: number;
    truth: Simulation['truth'];
  };
}

/** Level in both legs at rest, over the zero of their sensors. */
const LEG_REST_MM = 480;
/** Slow wandering of a leg's level (sun on one leg, a sticking meniscus), standard deviation. */
const LEG_WANDER_MM = 0.12;
const LEG_WANDER_S = 400;

/** How far she pitches about her trim at the quay, radians. */
const PITCH_RAD = 0.0006;
const PITCH_S = 3.1;

/** People who set her rolling would heel her so much standing still. */
const SWAY_RAD = 0.0035;

export const ALL_QUIET: DisturbanceSwitches = {
  wind: false,
  gusts: false,
  wakes: false,
  walking: false,
  snaggedLine: false,
};

type Noise = (place: number) => number;

/** *Marram* at the inner quay. */
class MarramAtTheQuay implements SimulatedWorld {
  readonly temperatureC: World['temperatureC'];
  readonly #truth: Simulation['truth'];
  readonly #crane: Crane;
  readonly #quay: Quay;
  readonly #motion: Motion;
  readonly #heights: ReadonlyMap<string, number>;
  readonly #legWander: Readonly<Record<'port' | 'starboard', Noise>>;
  readonly #pitch: Noise;
  readonly #trimRad: (heelRad: number) => number;
  readonly #switchings: { step: number; switches: DisturbanceSwitches }[] = [];
  #swaySteps: number[] = [];
  #settledUntilS = Number.NEGATIVE_INFINITY;

  constructor(seed: number, outside: OutsideMoment) {
    const reality = marramReality(seed);
    const noise = (name: string): Noise => createHashNoise(streamFromSeed(seed, name));
    this.temperatureC = createBoxTemperatures(seed);
    this.#truth = marramTruth(reality);
    this.#crane = new Crane(
      new Map(marramTest().weights.map((one) => [one.weight, one.at])),
      reality,
    );
    this.#quay = new Quay(seed, marramBerth(reality.form), WORLD_STEP_S);
    this.#motion = new Motion(reality.form, (step, foreseenHeelRad) => {
      const weights = this.#crane.load(step * WORLD_STEP_S);
      const berthTM = this.#quay.advance(step, this.#switchesAt(step));
      const swayTM = this.#swayTM(step, reality.form);
      const outsideTM =
        weights.outsideTM +
        berthTM +
        swayTM +
        this.#quay.lineMomentTM(foreseenHeelRad) +
        outside(step * WORLD_STEP_S, foreseenHeelRad);
      return { ...weights, outsideTM };
    });
    this.#heights = new Map(
      marramMountings().map((one) => [one.instrument, one.heightOverRollAxisM]),
    );
    this.#legWander = { port: noise('port leg level'), starboard: noise('starboard leg level') };
    this.#pitch = noise('pitch');
    this.#trimRad = (heelRad) => reality.form.righting.trimRad(heelRad);
  }

  specificForceG(instrument: string, timeS: number): { xG: number; yG: number; zG: number } {
    const heightM = this.#heights.get(instrument);
    if (heightM === undefined) throw new RangeError(`no instrument ${instrument} is aboard`);
    const { heelRad, accelerationRadS2 } = this.#at(timeS);
    const pitchRad = this.#trimRad(heelRad) + PITCH_RAD * this.#pitch(timeS / PITCH_S);
    const level = Math.cos(pitchRad);
    return {
      xG: Math.sin(pitchRad),
      yG: level * apparentHeelRad(Math.sin(heelRad), accelerationRadS2, heightM),
      zG: level * Math.cos(heelRad),
    };
  }

  legLevelMm(instrument: string, leg: 'port' | 'starboard', timeS: number): number {
    if (instrument !== INSTRUMENTS.tube) throw new RangeError(`${instrument} is no water tube`);
    const half = (leg === 'starboard' ? 0.5 : -0.5) * this.#at(timeS).differenceMm;
    return LEG_REST_MM + half + LEG_WANDER_MM * this.#legWander[leg](timeS / LEG_WANDER_S);
  }

  command(atS: number, order: WorldCommand): void {
    if (!(atS >= this.#settledUntilS)) {
      throw new RangeError(
        `an order for ${atS} s comes after ${this.#settledUntilS} s was settled`,
      );
    }
    this.#settledUntilS = atS;
    // The step in which a time lies has been worked out to its end when that time was asked for.
    const step = Math.max(0, Math.ceil(atS / WORLD_STEP_S)) + 1;
    this.#crane.order(step * WORLD_STEP_S, order.state, order.weights);
    this.#switchings.push({ step, switches: { ...order.disturbances } });
    if (order.sway === true) this.#swaySteps.push(step);
  }

  status(timeS: number): ReturnType<SimulatedWorld['status']> {
    return {
      carrying: this.#crane.carrying(timeS),
      settledState: this.#crane.settledState(timeS),
      truth: this.#truth,
    };
  }

  #at(timeS: number): ReturnType<Motion['at']> {
    const attitude = this.#motion.at(timeS);
    this.#settledUntilS = Math.max(this.#settledUntilS, timeS);
    return attitude;
  }

  #swayTM(step: number, form: VesselForm): number {
    const from = this.#swaySteps.findLast((one) => one <= step);
    if (from === undefined) return 0;
    const mostTM = SWAY_RAD * form.displacementT * gmM(form);
    const periodS = naturalPeriodS(form, MARRAM_ROLL);
    return sallyMomentTM((step - from) * WORLD_STEP_S, periodS, mostTM);
  }

  #switchesAt(step: number): DisturbanceSwitches {
    return this.#switchings.findLast((one) => one.step <= step)?.switches ?? ALL_QUIET;
  }
}

/**
 * A moment from outside besides the berth's, t*m to starboard, at the end of a step: asked once a
 * step of 0.02 s, one after the other, with the heel foreseen there.
 */
export type OutsideMoment = (timeS: number, heelRad: number) => number;

/** `outside`: what else is wrong with her, for days with trouble put in; nothing when left out. */
export function createSimulatedWorld(options: {
  readonly seed: number;
  readonly outside?: OutsideMoment;
}): SimulatedWorld {
  return new MarramAtTheQuay(options.seed, options.outside ?? (() => 0));
}
