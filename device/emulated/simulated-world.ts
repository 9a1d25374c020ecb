import { createHashNoise, hashUniform, streamFromSeed } from '#core/numerics/random.ts';
import type { DisturbanceSwitches, Place, Simulation } from '#core/record/line.ts';
import { INSTRUMENTS } from '#core/sample/layout.ts';
import { createCrane } from './crane.ts';
import {
  MARRAM_ROLL,
  MARRAM_TUBE,
  marramBerth,
  marramMountings,
  marramReality,
  marramTest,
  marramTruth,
} from './marram.ts';
import { createQuay } from './quay.ts';
import {
  GRAVITY_M_S2,
  type RollLoad,
  type RollState,
  restingHeelRad,
  rollAcceleration,
  rollAfterStep,
} from './vessel.ts';
import { restingDifferenceMm, type TubeState, tubeAfterStep, tubeDynamics } from './water-tube.ts';
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

/** The fixed step of the integration. */
export const WORLD_STEP_S = 0.02;
/** Steps kept for looking back: over five seconds. */
const KEPT_STEPS = 256;
/** The world ends after ten days. */
const MOST_STEPS = (10 * 86_400) / WORLD_STEP_S;

const LEG_REST_MM = 480;
/** Slow wandering of a leg's level (sun on one leg, a sticking meniscus), standard deviation. */
const LEG_WANDER_MM = 0.12;
const LEG_WANDER_S = 400;

/** Her trim by the stern, radians, and how far she pitches at the quay. */
const TRIM_RAD = 0.0075;
const PITCH_RAD = 0.0006;
const PITCH_S = 3.1;

const BERTH_C = 11.5;
const WARMING_S = 600;
const DAY_K = 0.9;

export const ALL_QUIET: DisturbanceSwitches = {
  wind: false,
  gusts: false,
  wakes: false,
  walking: false,
  snaggedLine: false,
};

interface Instant {
  readonly roll: RollState;
  readonly accelerationRadS2: number;
  readonly tube: TubeState;
}

/** *Marram* at the inner quay. */
export function createSimulatedWorld({ seed }: { seed: number }): SimulatedWorld {
  const reality = marramReality(seed);
  const { form } = reality;
  const truth = marramTruth(reality);
  const marks = new Map<string, Place>(marramTest().weights.map((one) => [one.weight, one.at]));
  const crane = createCrane(marks, reality);
  const quay = createQuay(seed, marramBerth(form), WORLD_STEP_S);
  const heights = new Map(
    marramMountings().map((one) => [one.instrument, one.heightOverRollAxisM]),
  );
  const dynamics = tubeDynamics(MARRAM_TUBE);
  const legWander = {
    port: createHashNoise(streamFromSeed(seed, 'port leg level')),
    starboard: createHashNoise(streamFromSeed(seed, 'starboard leg level')),
  };
  const pitchNoise = createHashNoise(streamFromSeed(seed, 'pitch'));

  const switchings: { step: number; switches: DisturbanceSwitches }[] = [];
  let lastCommandS = Number.NEGATIVE_INFINITY;
  let latestQueryS = Number.NEGATIVE_INFINITY;

  const switchesAt = (step: number): DisturbanceSwitches =>
    switchings.findLast((one) => one.step <= step)?.switches ?? ALL_QUIET;

  const restingRad = restingHeelRad(form, { transverseTM: 0, verticalTM: 0 });
  let load: RollLoad = { ...crane.load(0), outsideTM: quay.advance(0, ALL_QUIET) };
  const history: Instant[] = [
    instantOf({ heelRad: restingRad, rateRadS: 0 }, load, {
      differenceMm: restingDifferenceMm(MARRAM_TUBE, restingRad),
      rateMmS: 0,
    }),
  ];
  let latestStep = 0;

  function instantOf(roll: RollState, at: RollLoad, tube: TubeState): Instant {
    return { roll, accelerationRadS2: rollAcceleration(form, MARRAM_ROLL, roll, at), tube };
  }

  function apparentRad(instant: Instant, heightM: number): number {
    return instant.roll.heelRad - (heightM / GRAVITY_M_S2) * instant.accelerationRadS2;
  }

  function advance(): void {
    const before = history[latestStep % KEPT_STEPS] as Instant;
    const step = latestStep + 1;
    if (step > MOST_STEPS) throw new RangeError('the simulated world ends after ten days');
    const weights = crane.load(step * WORLD_STEP_S);
    const aheadRad = before.roll.heelRad + before.roll.rateRadS * WORLD_STEP_S;
    const after: RollLoad = {
      ...weights,
      outsideTM:
        weights.outsideTM + quay.advance(step, switchesAt(step)) + quay.lineMomentTM(aheadRad),
    };
    const roll = rollAfterStep(
      form,
      MARRAM_ROLL,
      before.roll,
      { before: load, after },
      WORLD_STEP_S,
    );
    const next = instantOf(roll, after, before.tube);
    const drive = (instant: Instant) =>
      restingDifferenceMm(MARRAM_TUBE, apparentRad(instant, MARRAM_TUBE.heightOverRollAxisM));
    const tube = tubeAfterStep(
      dynamics,
      before.tube,
      { beforeMm: drive(before), afterMm: drive(next) },
      WORLD_STEP_S,
    );
    load = after;
    history[step % KEPT_STEPS] = { ...next, tube };
    latestStep = step;
  }

  /** The two instants around a time, and the share of the step between them. */
  function around(timeS: number): { before: Instant; after: Instant; share: number } {
    if (!(timeS >= 0)) throw new RangeError(`the simulated world begins at 0, not at ${timeS}`);
    latestQueryS = Math.max(latestQueryS, timeS);
    const step = Math.floor(timeS / WORLD_STEP_S);
    while (latestStep < step + 1) advance();
    if (step <= latestStep - KEPT_STEPS) {
      throw new RangeError(`the simulated world has forgotten ${timeS} s`);
    }
    return {
      before: history[step % KEPT_STEPS] as Instant,
      after: history[(step + 1) % KEPT_STEPS] as Instant,
      share: timeS / WORLD_STEP_S - step,
    };
  }

  function heelAt(timeS: number): { heelRad: number; accelerationRadS2: number } {
    const { before, after, share } = around(timeS);
    return {
      heelRad: hermite(
        [before.roll.heelRad, before.roll.rateRadS * WORLD_STEP_S],
        [after.roll.heelRad, after.roll.rateRadS * WORLD_STEP_S],
        share,
      ),
      accelerationRadS2:
        before.accelerationRadS2 + share * (after.accelerationRadS2 - before.accelerationRadS2),
    };
  }

  return {
    specificForceG(instrument, timeS) {
      const heightM = heights.get(instrument);
      if (heightM === undefined) throw new RangeError(`no instrument ${instrument} is aboard`);
      const { heelRad, accelerationRadS2 } = heelAt(timeS);
      const pitchRad = TRIM_RAD + PITCH_RAD * pitchNoise(timeS / PITCH_S);
      return {
        xG: Math.sin(pitchRad),
        yG: Math.cos(pitchRad) * (Math.sin(heelRad) - (heightM / GRAVITY_M_S2) * accelerationRadS2),
        zG: Math.cos(pitchRad) * Math.cos(heelRad),
      };
    },
    legLevelMm(instrument, leg, timeS) {
      if (instrument !== INSTRUMENTS.tube) {
        throw new RangeError(`${instrument} is no water tube`);
      }
      const { before, after, share } = around(timeS);
      const differenceMm = hermite(
        [before.tube.differenceMm, before.tube.rateMmS * WORLD_STEP_S],
        [after.tube.differenceMm, after.tube.rateMmS * WORLD_STEP_S],
        share,
      );
      const wanderMm = LEG_WANDER_MM * legWander[leg](timeS / LEG_WANDER_S);
      return LEG_REST_MM + (leg === 'starboard' ? 0.5 : -0.5) * differenceMm + wanderMm;
    },
    temperatureC: createBoxTemperatures(seed),
    command(atS, order) {
      if (atS < lastCommandS || atS < latestQueryS) {
        throw new RangeError(
          `an order for ${atS} s comes after ${Math.max(lastCommandS, latestQueryS)} s was settled`,
        );
      }
      lastCommandS = atS;
      const step = Math.max(0, Math.ceil(atS / WORLD_STEP_S)) + 1;
      crane.order(step * WORLD_STEP_S, order.state, order.weights);
      switchings.push({ step, switches: { ...order.disturbances } });
    },
    status: (timeS) => ({
      carrying: crane.carrying(timeS),
      settledState: crane.settledState(timeS),
      truth,
    }),
  };
}

/** Each box warms by its own electronics, and the day warms and cools them all a little. */
function createBoxTemperatures(seed: number): World['temperatureC'] {
  const boxes = new Map<string, { ownK: number; dayNoise: (place: number) => number }>();
  return (instrument, timeS) => {
    let box = boxes.get(instrument);
    if (box === undefined) {
      const stream = streamFromSeed(seed, `${instrument} temperature`);
      box = { ownK: 2 + hashUniform(stream, 0), dayNoise: createHashNoise(stream) };
      boxes.set(instrument, box);
    }
    const warmedK = box.ownK * (1 - 0.35 * Math.exp(-timeS / WARMING_S));
    return BERTH_C + warmedK + DAY_K * box.dayNoise(1 + timeS / 3600);
  };
}

/** Cubic between two values with their slopes a step (Hermite). */
function hermite(
  [start, startSlope]: readonly [number, number],
  [end, endSlope]: readonly [number, number],
  share: number,
): number {
  const left = 1 - share;
  return (
    (1 + 2 * share) * left * left * start +
    share * left * left * startSlope +
    share * share * (3 - 2 * share) * end -
    share * share * left * endSlope
  );
}
