import { createRandom, hashNormal, type Random, streamFromSeed } from '#core/numerics/random.ts';
import type { World } from '../world.ts';
import type { InclinometerElement } from './element.ts';
import { createFlicker } from './flicker.ts';
import { createLowPass, type LowPass } from './low-pass.ts';
import { IIS2ICLX, type PartCharacter } from './part-character.ts';

const REFERENCE_C = 25;
/** In no sheet, our assumption: the clock's tolerance, and noise that averaging does not lower. */
const CLOCK_TOLERANCE = 0.008;
const FLICKER_G = 6e-6;

/** Ticks remembered for looking back: over a second at the fastest rate. */
const KEPT_TICKS = 1024;
/** After a longer silence the filter starts anew this long before the time asked for. */
const CATCH_UP_S = 2;
/** Temperature and flicker, which change slowly, are taken once in so many ticks. */
const SLOW_TICKS = 16;

/** One sensing axis of one part. */
class Axis {
  readonly #gain: number;
  readonly #gainPerK: number;
  readonly #zeroG: number;
  readonly #zeroPerKG: number;
  readonly #noiseStream: number;
  readonly #flicker: (timeS: number) => number;
  /** Gain and zero as temperature and flicker have them now. */
  #gainNow = 1;
  #zeroNowG = 0;

  constructor(of: { seed: number; name: string; chance: Random; part: PartCharacter }) {
    const { seed, name, chance, part } = of;
    this.#gain = 1 + chance.between(-part.sensitivityTolerance, part.sensitivityTolerance);
    this.#zeroG = chance.between(-part.zeroToleranceG, part.zeroToleranceG);
    this.#zeroPerKG = chance.normal(part.zeroPerKG);
    this.#gainPerK = chance.normal(part.sensitivityPerK);
    this.#noiseStream = streamFromSeed(seed, `${name} noise`);
    this.#flicker = createFlicker(seed, `${name} flicker`);
  }

  takeSlow(temperatureC: number, timeS: number): void {
    const warmerK = temperatureC - REFERENCE_C;
    this.#gainNow = this.#gain * (1 + this.#gainPerK * warmerK);
    this.#zeroNowG = this.#zeroG + this.#zeroPerKG * warmerK + FLICKER_G * this.#flicker(timeS);
  }

  indicatedG(forceG: number, tick: number, noiseG: number): number {
    return this.#gainNow * forceG + this.#zeroNowG + noiseG * hashNormal(this.#noiseStream, tick);
  }
}

/** What is remembered of a tick: its number, x, y, temperature, saturated, z. */
const COLUMNS = 6;

/** The chip's clock and filters since it was configured or caught up. */
interface Running {
  readonly rateHz: number;
  readonly bandwidthHz: number;
  readonly sensitivityG: number;
  readonly noiseG: number;
  x: LowPass;
  y: LowPass;
  z: LowPass;
  firstTick: number;
  latestTick: number;
}

/**
 * The sensing element of one part in a world: its own gain, zero, drift, noise and clock, all
 * from the seed and its name. Noise belongs to the number of the tick, so whoever reads the same
 * tick gets the same counts.
 */
class PartElement implements InclinometerElement {
  readonly #world: World;
  readonly #instrument: string;
  readonly #clockError: number;
  readonly #clockPhase: number;
  readonly #temperatureOffsetK: number;
  readonly #x: Axis;
  readonly #y: Axis;
  /** Null: a part of two axes. */
  readonly #z: Axis | null;
  readonly #part: PartCharacter;
  readonly #kept = new Float64Array(KEPT_TICKS * COLUMNS);
  #running: Running | null = null;
  #slowBlock = Number.NaN;
  #temperatureC = REFERENCE_C;

  constructor(of: { world: World; instrument: string; seed: number; part: PartCharacter }) {
    const { world, instrument, seed, part } = of;
    const chance = createRandom(seed, `${instrument} element`);
    this.#world = world;
    this.#instrument = instrument;
    this.#clockError = chance.between(-CLOCK_TOLERANCE, CLOCK_TOLERANCE);
    this.#clockPhase = chance.uniform();
    this.#temperatureOffsetK = chance.normal(part.temperatureOffsetK);
    this.#part = part;
    const axis = (name: string) => new Axis({ seed, name: `${instrument} ${name}`, chance, part });
    this.#x = axis('x');
    this.#y = axis('y');
    this.#z = part.axisCount === 3 ? axis('z') : null;
  }

  configure(settings: { odrHz: number; bandwidthHz: number; rangeG: number }, timeS: number): void {
    const { odrHz, bandwidthHz, rangeG } = settings;
    const sensitivityG = this.#part.gPerCount(rangeG);
    const rateHz = odrHz * (1 + this.#clockError);
    const noiseG = this.#part.noiseGRtHz * Math.sqrt(odrHz / 2);
    this.#begin({ rateHz, bandwidthHz, sensitivityG, noiseG }, this.#tickAt(rateHz, timeS));
  }

  read(timeS: number): ReturnType<InclinometerElement['read']> {
    let run = this.#running;
    if (run === null) {
      throw new RangeError(`${this.#instrument} is read before it is configured`);
    }
    const tick = Math.max(run.firstTick, this.#tickAt(run.rateHz, timeS));
    if (tick - run.latestTick > 2 * CATCH_UP_S * run.rateHz) {
      run = this.#begin(run, tick - Math.ceil(CATCH_UP_S * run.rateHz));
    }
    while (run.latestTick < tick) this.#convert(run, run.latestTick + 1);
    const at = (tick % KEPT_TICKS) * COLUMNS;
    const kept = this.#kept;
    if (kept[at] !== tick) throw new RangeError(`${this.#instrument} has forgotten ${timeS} s`);
    return {
      tick,
      xCounts: kept[at + 1]!,
      yCounts: kept[at + 2]!,
      temperatureCounts: kept[at + 3]!,
      saturated: kept[at + 4] === 1,
      ...(this.#z !== null && { zCounts: kept[at + 5]! }),
    };
  }

  #tickAt(rateHz: number, timeS: number): number {
    return Math.max(0, Math.floor(timeS * rateHz + this.#clockPhase));
  }

  #timeOf(rateHz: number, tick: number): number {
    return Math.max(0, (tick - this.#clockPhase) / rateHz);
  }

  #begin(
    settings: Omit<Running, 'x' | 'y' | 'z' | 'firstTick' | 'latestTick'>,
    tick: number,
  ): Running {
    const { rateHz, bandwidthHz, sensitivityG, noiseG } = settings;
    const run: Running = {
      rateHz,
      bandwidthHz,
      sensitivityG,
      noiseG,
      x: createLowPass(rateHz, bandwidthHz),
      y: createLowPass(rateHz, bandwidthHz),
      z: createLowPass(rateHz, bandwidthHz),
      firstTick: tick,
      latestTick: tick,
    };
    this.#running = run;
    this.#kept.fill(-1);
    this.#slowBlock = Number.NaN;
    this.#convert(run, tick);
    return run;
  }

  #convert(run: Running, tick: number): void {
    const block = Math.floor(tick / SLOW_TICKS);
    if (block !== this.#slowBlock) this.#takeSlow(block, run.rateHz);
    const timeS = this.#timeOf(run.rateHz, tick);
    const force = this.#world.specificForceG(this.#instrument, timeS);
    const xG = run.x.next(this.#x.indicatedG(force.xG, tick, run.noiseG));
    const yG = run.y.next(this.#y.indicatedG(force.yG, tick, run.noiseG));
    const x = this.#registerCounts(xG / run.sensitivityG);
    const y = this.#registerCounts(yG / run.sensitivityG);
    const z = this.#z === null ? 0 : this.#zCounts(this.#z, run, tick, force.zG);
    const at = (tick % KEPT_TICKS) * COLUMNS;
    this.#kept[at] = tick;
    this.#kept[at + 1] = x;
    this.#kept[at + 2] = y;
    this.#kept[at + 3] = this.#registerCounts(
      this.#part.countsFromTemperatureC(this.#temperatureC + this.#temperatureOffsetK),
    );
    this.#kept[at + 4] = [x, y, z].some((counts) => this.#isAtEnd(counts)) ? 1 : 0;
    this.#kept[at + 5] = z;
    run.latestTick = tick;
  }

  #takeSlow(block: number, rateHz: number): void {
    const timeS = this.#timeOf(rateHz, block * SLOW_TICKS);
    this.#slowBlock = block;
    this.#temperatureC = this.#world.temperatureC(this.#instrument, timeS);
    this.#x.takeSlow(this.#temperatureC, timeS);
    this.#y.takeSlow(this.#temperatureC, timeS);
    this.#z?.takeSlow(this.#temperatureC, timeS);
  }

  #zCounts(axis: Axis, run: Running, tick: number, forceG: number): number {
    const zG = run.z.next(axis.indicatedG(forceG, tick, run.noiseG));
    return this.#registerCounts(zG / run.sensitivityG);
  }

  /** What the register can hold; the chip itself stops at the ends of its range. */
  #registerCounts(value: number): number {
    return Math.min(this.#part.mostCounts, Math.max(this.#part.leastCounts, Math.round(value)));
  }

  #isAtEnd(counts: number): boolean {
    return counts === this.#part.mostCounts || counts === this.#part.leastCounts;
  }
}

/** An element of a part; an IIS2ICLX where none is said. */
export function createInclinometerElement(of: {
  world: World;
  instrument: string;
  seed: number;
  part?: PartCharacter;
}): InclinometerElement {
  return new PartElement({ part: IIS2ICLX, ...of });
}
