import { streamFromSeed } from '#core/numerics/random.ts';
import type { DisturbanceSwitches } from '#core/record/line.ts';
import { type EventDraw, type EventPlan, eventsUnderWay } from './quay/events.ts';
import { LONGEST_WALK_S, walkMomentTM } from './quay/person.ts';
import { narrowBandProcess, type RandomProcess, slowProcess } from './quay/random-process.ts';
import {
  type PassingBoat,
  wakeArrivalS,
  wakeFrequencyHz,
  wakeSlopeRad,
  waveSlopeShare,
} from './quay/wake.ts';
import { gustMS, LONGEST_GUST_S, type Windage, windMomentTM } from './quay/wind.ts';

/** How rough each disturbance of the berth is; everything is drawn from the seed on top of it. */
export interface Berth {
  readonly windage: Windage;
  readonly beamM: number;
  /** Displacement times GM: turns a wave slope into a moment, t*m a radian. */
  readonly stiffnessTM: number;
  /** Standard deviation of the swell's slope, radians, always there. */
  readonly swellSlopeRad: number;
}

/** Light air that never stops, and the wind with the switch on: mean and turbulence, m/s. */
const LIGHT_AIR = { meanMS: 0.8, slowMS: 0.18, quickMS: 0.12 };
const WIND = { meanMS: 3.4, slowMS: 0.35, quickMS: 0.4 };
const SLOW_TURBULENCE_S = 30;
const QUICK_TURBULENCE_S = 4;

const SWELL = { periodS: 5.4, correlationS: 7 };

/** A switched disturbance comes and goes within a few seconds, never in one step. */
const SWITCHING_S = 1.5;
const ARRIVED = 1e-9;

/** A mooring line fouled on the quay: slack until she heels past its threshold, then a spring. */
const LINE_TAUT_FROM_RAD = 0.006;
const LINE_STIFFNESS_SHARE = 0.3;

type Switch = keyof DisturbanceSwitches;
const SWITCHES: readonly Switch[] = ['wind', 'gusts', 'wakes', 'walking', 'snaggedLine'];

const WAKE_LASTS_S = 120;

/** The berth, advanced one fixed step at a time. */
export class Quay {
  readonly #berth: Berth;
  readonly #stepS: number;
  readonly #swell: RandomProcess;
  readonly #slowWind: RandomProcess;
  readonly #quickWind: RandomProcess;
  readonly #plans: Readonly<Record<'gusts' | 'wakes' | 'walking', EventPlan>>;
  readonly #keep: number;
  readonly #level = fromSwitches(() => 0);
  readonly #onSinceS = fromSwitches(() => 0);
  readonly #wasOn = fromSwitches(() => false);
  #followed: DisturbanceSwitches | null = null;

  constructor(seed: number, berth: Berth, stepS: number) {
    this.#berth = berth;
    this.#stepS = stepS;
    this.#keep = Math.exp(-stepS / SWITCHING_S);
    this.#swell = narrowBandProcess(seed, 'swell', SWELL, stepS);
    this.#slowWind = slowProcess(seed, 'slow wind', SLOW_TURBULENCE_S, stepS);
    this.#quickWind = slowProcess(seed, 'quick wind', QUICK_TURBULENCE_S, stepS);
    this.#plans = {
      gusts: { stream: streamFromSeed(seed, 'gusts'), firstS: 5, slotS: 75, spread: 0.6 },
      wakes: { stream: streamFromSeed(seed, 'wakes'), firstS: 5, slotS: 170, spread: 0.5 },
      walking: { stream: streamFromSeed(seed, 'walking'), firstS: 4, slotS: 90, spread: 0.3 },
    };
  }

  /**
   * Moment that does not depend on her heel, t*m to starboard, at the end of this step; steps come
   * one after the other from 0.
   */
  advance(step: number, switches: DisturbanceSwitches): number {
    const timeS = step * this.#stepS;
    const { stiffnessTM, swellSlopeRad } = this.#berth;
    this.#follow(switches, timeS);
    const swellTM = stiffnessTM * swellSlopeRad * this.#swell.advance(step);
    return swellTM + this.#windTM(step, timeS) + this.#wakesTM(timeS) + this.#walkingTM(timeS);
  }

  /** Moment of the snagged line at a heel, t*m; never positive: it holds her back to port. */
  lineMomentTM(heelRad: number): number {
    const stretchedRad = Math.max(0, heelRad - LINE_TAUT_FROM_RAD);
    const stiffnessTM = LINE_STIFFNESS_SHARE * this.#berth.stiffnessTM;
    return -this.#level.snaggedLine * stiffnessTM * stretchedRad;
  }

  #follow(switches: DisturbanceSwitches, timeS: number): void {
    if (switches === this.#followed) return;
    let arrived = true;
    for (const name of SWITCHES) {
      if (switches[name] && !this.#wasOn[name]) this.#onSinceS[name] = timeS;
      this.#wasOn[name] = switches[name];
      const target = switches[name] ? 1 : 0;
      const level = target + (this.#level[name] - target) * this.#keep;
      const isThere = Math.abs(level - target) < ARRIVED;
      this.#level[name] = isThere ? target : level;
      arrived &&= isThere;
    }
    this.#followed = arrived ? switches : null;
  }

  #windTM(step: number, timeS: number): number {
    const share = this.#level.wind;
    const of = (part: keyof typeof WIND) => LIGHT_AIR[part] * (1 - share) + WIND[part] * share;
    const acrossMS =
      of('meanMS') +
      of('slowMS') * this.#slowWind.advance(step) +
      of('quickMS') * this.#quickWind.advance(step) +
      this.#sum('gusts', timeS, LONGEST_GUST_S, gustMS);
    return windMomentTM(this.#berth.windage, acrossMS);
  }

  #wakesTM(timeS: number): number {
    const { beamM, stiffnessTM } = this.#berth;
    return this.#sum('wakes', timeS, WAKE_LASTS_S, (ageS, draw) => {
      const boat = passingBoat(draw);
      // Events are arrivals at the quay, so that each is seen soon after it is switched on.
      const sinceAbeamS = ageS + wakeArrivalS(boat);
      const share = waveSlopeShare(beamM, wakeFrequencyHz(boat, sinceAbeamS) ?? 0);
      return stiffnessTM * share * wakeSlopeRad(boat, sinceAbeamS);
    });
  }

  #walkingTM(timeS: number): number {
    return this.#sum('walking', timeS, LONGEST_WALK_S, walkMomentTM);
  }

  /** Sum over the events under way of one disturbance, as far as it is switched on. */
  #sum(
    name: 'gusts' | 'wakes' | 'walking',
    timeS: number,
    longestS: number,
    of: (ageS: number, draw: EventDraw) => number,
  ): number {
    const level = this.#level[name];
    if (level === 0) return 0;
    let sum = 0;
    const sinceOnS = timeS - this.#onSinceS[name];
    for (const { ageS, draw } of eventsUnderWay(this.#plans[name], sinceOnS, longestS)) {
      sum += of(ageS, draw);
    }
    return level * sum;
  }
}

function passingBoat(draw: EventDraw): PassingBoat {
  return {
    speedMS: 3.5 + 3.5 * draw(1),
    distanceM: 40 + 80 * draw(2),
    slopeRad: 0.008 + 0.01 * draw(3),
  };
}

function fromSwitches<T>(make: () => T): Record<Switch, T> {
  return {
    wind: make(),
    gusts: make(),
    wakes: make(),
    walking: make(),
    snaggedLine: make(),
  };
}
