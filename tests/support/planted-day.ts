import { createRandom, type Random } from '#core/numerics/random.ts';
import type { DisturbanceSwitches, Place, TestOpened } from '#core/record/line.ts';
import type { CauseName } from '#core/reduction/cause-names.ts';
import { INSTRUMENTS } from '#core/sample/layout.ts';
import { marramMountings, marramTest } from '#device/emulated/marram.ts';
import { createSampleEntrance } from '#device/emulated/sample-entrance.ts';
import {
  ALL_QUIET,
  createSimulatedWorld,
  type SimulatedWorld,
} from '#device/emulated/simulated-world.ts';
import { sineBarCertificates } from '#device/emulated/sine-bar.ts';
import type { DaySource } from './day.ts';
import { type Course, plantedMoment } from './planted-moment.ts';

/** What is wrong with a simulated day, by the name of the cause that should be told. */
export const PLANTED = [
  'weight',
  'moved and stayed',
  'one state',
  'line',
  'slack tank',
  'free surface',
  'cross-connection',
  'ground',
  'scale',
  'slipped',
  'wind',
  'list drifts',
] as const;
export type Planted = (typeof PLANTED)[number];

/** The cause each should be told as. */
export const CAUSE_OF: Readonly<Record<Planted, CauseName>> = {
  weight: 'weight',
  'moved and stayed': 'moved',
  'one state': 'disturbed-state',
  line: 'line',
  'slack tank': 'tank-wall',
  'free surface': 'free-surface',
  'cross-connection': 'cross-connection',
  ground: 'ground',
  scale: 'scale',
  slipped: 'slipped',
  wind: 'wind',
  'list drifts': 'list-drift',
};

/** *Marram*'s tangent of heel a t*m, for sizes in degrees. */
const DEG_PER_TM = 1.3;

/** A whole day at sample level with one thing wrong, its size and place drawn from the seed; null: nothing. */
export function plantedSource(seed: number, planted: Planted | null): DaySource {
  const random = createRandom(seed, `planted ${planted}`);
  const course: Course = { state: 0, sinceS: [] };
  const outside = plantedMoment(planted, random, course);
  const world = shownAs(
    createSimulatedWorld({ seed, outside }),
    planted === 'scale' || planted === 'slipped' ? spoiled(planted, random, course) : null,
  );
  const weights = planted === 'weight' ? wrongWeight(random) : RIGHT_WEIGHTS;
  const entrance = createSampleEntrance({ seed, world });
  const disturbances: DisturbanceSwitches =
    planted === 'wind' ? { ...ALL_QUIET, wind: true, gusts: random.uniform() < 0.5 } : ALL_QUIET;
  return {
    test: weights.stated(marramTest()),
    simulation: { seed, paceAsked: 1, paceHeld: 1, disturbances, truth: world.status(0).truth },
    mountings: marramMountings(),
    certificates: sineBarCertificates(seed),
    advance: (untilS) => entrance.advance(untilS),
    order(atS, session) {
      const last = session.states.at(-1)!;
      course.state = last.state;
      course.sinceS[last.state] = atS;
      const places = { ...session.weightsAt };
      for (const move of last.moves) places[move.weight] = move.to;
      world.command(atS + 0.01, {
        state: last.state,
        weights: Object.entries(places).map(([weight, place]) => ({
          weight,
          ...weights.really(weight, place),
        })),
        disturbances,
      });
    },
    carrying: (atS) => world.status(atS).carrying.length > 0,
  };
}

interface Weights {
  stated(test: TestOpened): TestOpened;
  really(weight: string, place: Place): Place;
}

const RIGHT_WEIGHTS: Weights = { stated: (test) => test, really: (_, place) => place };

/** A mass misread, a mark missed, a distance taped wrongly: one weight's moment is not as written. */
function wrongWeight(random: Random): Weights {
  const weight = 'ABCD'[Math.floor(4 * random.uniform())]!;
  const offDeg =
    (random.uniform() < 0.5 ? -1 : 1) * Math.exp(random.between(Math.log(0.03), Math.log(0.25)));
  if (random.uniform() < 0.5) {
    const share = offDeg / (DEG_PER_TM * 1.05);
    return {
      ...RIGHT_WEIGHTS,
      stated: (test) => ({
        ...test,
        weights: test.weights.map((one) =>
          one.weight === weight ? { ...one, massT: one.massT * (1 + share) } : one,
        ),
      }),
    };
  }
  const offM = offDeg / (DEG_PER_TM * 0.25);
  const home = marramTest().weights.find((one) => one.weight === weight)!.at.yM;
  return {
    ...RIGHT_WEIGHTS,
    really: (name, place) =>
      name === weight && place.yM !== home ? { ...place, yM: place.yM + offM } : place,
  };
}

/** Factor on, and radians added to, what one instrument shows at a time. */
interface Spoiled {
  readonly instrument: string;
  at(timeS: number): { scale: number; addedRad: number };
}

function spoiled(planted: 'scale' | 'slipped', random: Random, course: Course): Spoiled {
  const names = Object.values(INSTRUMENTS);
  const instrument = names[Math.floor(names.length * random.uniform())]!;
  const sign = random.uniform() < 0.5 ? -1 : 1;
  if (planted === 'scale') {
    const scale = 1 + sign * Math.exp(random.between(Math.log(0.006), Math.log(0.04)));
    return { instrument, at: () => ({ scale, addedRad: 0 }) };
  }
  // two states on either side at least: else it is one reading that is off
  const state = 2 + Math.floor(6 * random.uniform());
  const afterS = random.between(3, 60);
  const addedRad =
    (sign * Math.exp(random.between(Math.log(0.02), Math.log(0.15))) * Math.PI) / 180;
  return {
    instrument,
    at: (timeS) => ({
      scale: 1,
      addedRad: timeS > (course.sinceS[state] ?? Number.POSITIVE_INFINITY) + afterS ? addedRad : 0,
    }),
  };
}

const SPAN_MM = marramMountings().find((one) => one.spanM !== null)!.spanM! * 1000;

function shownAs(world: SimulatedWorld, wrong: Spoiled | null): SimulatedWorld {
  if (wrong === null) return world;
  return {
    command: (atS, order) => world.command(atS, order),
    status: (timeS) => world.status(timeS),
    temperatureC: (instrument, timeS) => world.temperatureC(instrument, timeS),
    specificForceG(instrument, timeS) {
      const felt = world.specificForceG(instrument, timeS);
      if (instrument !== wrong.instrument) return felt;
      const { scale, addedRad } = wrong.at(timeS);
      return { ...felt, yG: felt.yG * scale + addedRad };
    },
    legLevelMm(instrument, leg, timeS) {
      const level = world.legLevelMm(instrument, leg, timeS);
      if (instrument !== wrong.instrument) return level;
      const { scale, addedRad } = wrong.at(timeS);
      const other = world.legLevelMm(instrument, leg === 'port' ? 'starboard' : 'port', timeS);
      const half = (level - other) / 2;
      const shift = (leg === 'starboard' ? 0.5 : -0.5) * addedRad * SPAN_MM;
      return (level + other) / 2 + half * scale + shift;
    },
  };
}
