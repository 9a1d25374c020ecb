import { createRandom, hashNormal, streamFromSeed } from '#core/numerics/random.ts';
import {
  countsFromTemperatureC,
  gPerCount,
  LEAST_COUNTS,
  MOST_COUNTS,
} from '#core/part/iis2iclx.ts';
import type { World } from '../world.ts';
import type { InclinometerElement } from './element.ts';
import { createFlicker } from './flicker.ts';
import { createLowPass, type LowPass } from './low-pass.ts';

/** Limits and typical values of ST data sheet DS13005 Rev 7, Table 2, mechanical characteristics. */
const SENSITIVITY_TOLERANCE = 0.02;
const ZERO_TOLERANCE_G = 0.008;
const ZERO_PER_K_G = 0.02e-3;
const SENSITIVITY_PER_K = 0.00004;
const NOISE_G_RT_HZ = 15e-6;
/** The sheet gives the temperature sensor an offset of up to 15 K. */
const TEMPERATURE_OFFSET_K = 3;
const REFERENCE_C = 25;
/** Not in the sheet, our assumption: the clock's tolerance, and noise that averaging does not lower. */
const CLOCK_TOLERANCE = 0.008;
const FLICKER_G = 6e-6;

/** Ticks remembered for looking back: over a second at the fastest rate. */
const KEPT_TICKS = 1024;
/** After a longer silence the filter starts anew this long before the time asked for. */
const CATCH_UP_S = 2;
/** Temperature is taken once in so many ticks. */
const TEMPERATURE_TICKS = 32;

interface Axis {
  readonly gain: number;
  readonly zeroG: number;
  readonly zeroPerKG: number;
  readonly gainPerK: number;
  readonly noiseStream: number;
  readonly flicker: (timeS: number) => number;
}

type Output = ReturnType<InclinometerElement['read']>;

interface Running {
  readonly rateHz: number;
  readonly rangeG: number;
  readonly noiseG: number;
  readonly bandwidthHz: number;
  x: LowPass;
  y: LowPass;
  firstTick: number;
  latestTick: number;
  readonly outputs: Output[];
}

/**
 * The sensing element of one IIS2ICLX in a world: its own gain, zero, drift, noise and clock, all
 * from the seed and its name. Noise belongs to the number of the tick, so whoever reads the same
 * tick gets the same counts.
 */
export function createInclinometerElement(of: {
  world: World;
  instrument: string;
  seed: number;
}): InclinometerElement {
  const { world, instrument, seed } = of;
  const chance = createRandom(seed, `${instrument} element`);
  const clockError = chance.between(-CLOCK_TOLERANCE, CLOCK_TOLERANCE);
  const clockPhase = chance.uniform();
  const temperatureOffsetK = chance.normal(TEMPERATURE_OFFSET_K);
  const axis = (name: string): Axis => ({
    gain: 1 + chance.between(-SENSITIVITY_TOLERANCE, SENSITIVITY_TOLERANCE),
    zeroG: chance.between(-ZERO_TOLERANCE_G, ZERO_TOLERANCE_G),
    zeroPerKG: chance.normal(ZERO_PER_K_G),
    gainPerK: chance.normal(SENSITIVITY_PER_K),
    noiseStream: streamFromSeed(seed, `${instrument} ${name} noise`),
    flicker: createFlicker(seed, `${instrument} ${name} flicker`),
  });
  const axes = { x: axis('x'), y: axis('y') };
  let running: Running | null = null;
  let temperatureTick = Number.NaN;
  let temperatureC = REFERENCE_C;

  function tickAt(rateHz: number, timeS: number): number {
    return Math.floor(timeS * rateHz + clockPhase);
  }

  function indicatedG(one: Axis, forceG: number, tick: number, timeS: number, noiseG: number) {
    const warmerK = temperatureC - REFERENCE_C;
    return (
      one.gain * (1 + one.gainPerK * warmerK) * forceG +
      one.zeroG +
      one.zeroPerKG * warmerK +
      noiseG * hashNormal(one.noiseStream, tick) +
      FLICKER_G * one.flicker(timeS)
    );
  }

  function convert(run: Running, tick: number): void {
    const timeS = Math.max(0, (tick - clockPhase) / run.rateHz);
    const temperatureBlock = Math.floor(tick / TEMPERATURE_TICKS);
    if (temperatureBlock !== temperatureTick) {
      temperatureTick = temperatureBlock;
      temperatureC = world.temperatureC(instrument, timeS);
    }
    const force = world.specificForceG(instrument, timeS);
    const xG = run.x.next(indicatedG(axes.x, force.xG, tick, timeS, run.noiseG));
    const yG = run.y.next(indicatedG(axes.y, force.yG, tick, timeS, run.noiseG));
    const sensitivity = gPerCount(run.rangeG);
    const x = register(xG / sensitivity);
    const y = register(yG / sensitivity);
    const temperature = register(countsFromTemperatureC(temperatureC + temperatureOffsetK));
    run.outputs[tick % KEPT_TICKS] = {
      tick,
      xCounts: x.counts,
      yCounts: y.counts,
      temperatureCounts: temperature.counts,
      saturated: x.saturated || y.saturated,
    };
    run.latestTick = tick;
  }

  function begin(run: Running, tick: number): void {
    run.x = createLowPass(run.rateHz, run.bandwidthHz);
    run.y = createLowPass(run.rateHz, run.bandwidthHz);
    run.firstTick = tick;
    run.outputs.length = 0;
    convert(run, tick);
  }

  return {
    configure({ odrHz, bandwidthHz, rangeG }, timeS) {
      gPerCount(rangeG);
      const rateHz = odrHz * (1 + clockError);
      const tick = Math.max(0, tickAt(rateHz, timeS));
      running = {
        rateHz,
        rangeG,
        bandwidthHz,
        noiseG: NOISE_G_RT_HZ * Math.sqrt(odrHz / 2),
        x: createLowPass(rateHz, bandwidthHz),
        y: createLowPass(rateHz, bandwidthHz),
        firstTick: tick,
        latestTick: tick,
        outputs: [],
      };
      begin(running, tick);
    },
    read(timeS) {
      if (running === null) throw new RangeError(`${instrument} is read before it is configured`);
      const tick = Math.max(running.firstTick, tickAt(running.rateHz, timeS));
      if (tick - running.latestTick > 2 * CATCH_UP_S * running.rateHz) {
        begin(running, tick - Math.ceil(CATCH_UP_S * running.rateHz));
      }
      while (running.latestTick < tick) convert(running, running.latestTick + 1);
      const output = running.outputs[tick % KEPT_TICKS];
      if (output?.tick !== tick) throw new RangeError(`${instrument} has forgotten ${timeS} s`);
      return output;
    },
  };
}

/** What 16 bits can hold; the chip itself stops at the ends of its range. */
function register(value: number): { counts: number; saturated: boolean } {
  const counts = Math.round(value);
  if (counts >= MOST_COUNTS) return { counts: MOST_COUNTS, saturated: true };
  if (counts <= LEAST_COUNTS) return { counts: LEAST_COUNTS, saturated: true };
  return { counts, saturated: false };
}
