import { streamFromSeed } from '#core/numerics/random.ts';
import type { DisturbanceSwitches } from '#core/record/line.ts';
import { type EventPlan, eventsUnderWay } from './quay/events.ts';
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

/** A switched disturbance comes and goes within a few seconds, never in one step. */
const SWITCHING_S = 1.5;
const ARRIVED = 1e-9;

/** A mooring line fouled on the quay: slack until she heels past its threshold, then a spring. */
const LINE_TAUT_FROM_RAD = 0.006;
const LINE_STIFFNESS_SHARE = 0.3;

type Switch = keyof DisturbanceSwitches;
const SWITCHES: readonly Switch[] = ['wind', 'gusts', 'wakes', 'walking', 'snaggedLine'];

/** The berth, advanced one fixed step at a time. */
export interface Quay {
  /** Moment that does not depend on her heel, t*m to starboard, at the end of this step. */
  advance(step: number, switches: DisturbanceSwitches): number;
  /** Moment of the snagged line at a heel, t*m; never positive: it holds her back to port. */
  lineMomentTM(heelRad: number): number;
}

interface Processes {
  readonly swell: RandomProcess;
  readonly slowWind: RandomProcess;
  readonly quickWind: RandomProcess;
}

export function createQuay(seed: number, berth: Berth, stepS: number): Quay {
  const processes: Processes = {
    swell: narrowBandProcess(seed, 'swell', { periodS: 5.4, correlationS: 7 }, stepS),
    slowWind: slowProcess(seed, 'slow wind', SLOW_TURBULENCE_S, stepS),
    quickWind: slowProcess(seed, 'quick wind', QUICK_TURBULENCE_S, stepS),
  };
  const plans: Record<'gusts' | 'wakes' | 'walking', EventPlan> = {
    gusts: { stream: streamFromSeed(seed, 'gusts'), firstS: 5, slotS: 75, spread: 0.6 },
    wakes: { stream: streamFromSeed(seed, 'wakes'), firstS: 5, slotS: 170, spread: 0.5 },
    walking: { stream: streamFromSeed(seed, 'walking'), firstS: 4, slotS: 90, spread: 0.3 },
  };
  const level: Record<Switch, number> = fromSwitches(() => 0);
  const onSinceS: Record<Switch, number> = fromSwitches(() => 0);
  const wasOn: Record<Switch, boolean> = fromSwitches(() => false);
  const keep = Math.exp(-stepS / SWITCHING_S);
  let followed: DisturbanceSwitches | null = null;

  const follow = (switches: DisturbanceSwitches, timeS: number): void => {
    if (switches === followed) return;
    let arrived = true;
    for (const name of SWITCHES) {
      if (switches[name] && !wasOn[name]) onSinceS[name] = timeS;
      wasOn[name] = switches[name];
      const target = switches[name] ? 1 : 0;
      level[name] = target + (level[name] - target) * keep;
      if (Math.abs(level[name] - target) < ARRIVED) level[name] = target;
      else arrived = false;
    }
    followed = arrived ? switches : null;
  };

  const windTM = (step: number, timeS: number): number => {
    const share = level.wind;
    const of = (part: keyof typeof WIND) => LIGHT_AIR[part] * (1 - share) + WIND[part] * share;
    let acrossMS =
      of('meanMS') +
      of('slowMS') * processes.slowWind.advance(step) +
      of('quickMS') * processes.quickWind.advance(step);
    if (level.gusts > 0) {
      for (const gust of eventsUnderWay(plans.gusts, timeS - onSinceS.gusts, LONGEST_GUST_S)) {
        acrossMS += level.gusts * gustMS(gust.ageS, gust.draw);
      }
    }
    return windMomentTM(berth.windage, acrossMS);
  };

  const wakesTM = (timeS: number): number => {
    if (level.wakes === 0) return 0;
    let moment = 0;
    for (const wake of eventsUnderWay(plans.wakes, timeS - onSinceS.wakes, 120)) {
      const boat = passingBoat(wake.draw);
      const sinceAbeamS = wake.ageS + wakeArrivalS(boat);
      const frequencyHz = wakeFrequencyHz(boat, sinceAbeamS);
      if (frequencyHz === null) continue;
      const share = waveSlopeShare(berth.beamM, frequencyHz);
      moment += berth.stiffnessTM * share * wakeSlopeRad(boat, sinceAbeamS);
    }
    return level.wakes * moment;
  };

  const walkingTM = (timeS: number): number => {
    if (level.walking === 0) return 0;
    let moment = 0;
    for (const walk of eventsUnderWay(plans.walking, timeS - onSinceS.walking, LONGEST_WALK_S)) {
      moment += walkMomentTM(walk.ageS, walk.draw);
    }
    return level.walking * moment;
  };

  return {
    advance(step, switches) {
      const timeS = step * stepS;
      follow(switches, timeS);
      const swellTM = berth.stiffnessTM * berth.swellSlopeRad * processes.swell.advance(step);
      return swellTM + windTM(step, timeS) + wakesTM(timeS) + walkingTM(timeS);
    },
    lineMomentTM(heelRad) {
      const stretchedRad = Math.max(0, heelRad - LINE_TAUT_FROM_RAD);
      return -level.snaggedLine * LINE_STIFFNESS_SHARE * berth.stiffnessTM * stretchedRad;
    },
  };
}

function passingBoat(draw: (which: number) => number): PassingBoat {
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
