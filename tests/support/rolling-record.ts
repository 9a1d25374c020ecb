import { createRandom, type Random } from '#core/numerics/random.ts';
import { rollStep } from '#core/steadiness/roll-model.ts';
import type { EstimatorCell } from './estimator-cells.ts';

export const RECORD_STEP_S = 0.1;

/** One record of a cell: the mean heel of each 10 Hz sample's time, what she does, and what is read. */
export interface RollingRecord {
  /** What a reading should give at each sample: the mean heel, which only a drift moves. */
  readonly restDeg: Float64Array;
  /** How she lies, without the instrument's noise. */
  readonly heelDeg: Float64Array;
  readonly readDeg: Float64Array;
}

/** The correlation times whose sum, each with a power of time^(2/3), falls as f^(-5/3) between them. */
const GUST_TIMES_S = [1.5, 6, 24, 96] as const;

export function rollingRecord(cell: EstimatorCell, seed: number, lengthS: number): RollingRecord {
  const random = createRandom(seed, cell.name);
  const count = Math.round(lengthS / RECORD_STEP_S);
  const restDeg = new Float64Array(count).fill(random.between(-3, 3));
  const forcedDeg = forcing(cell, random, count);
  const heelDeg =
    cell.truth === 'quadratic'
      ? quadraticRoll(cell, random, count)
      : linearRoll(cell, random, forcedDeg);
  for (let k = 0; k < count; k++) {
    if (cell.truth === 'drift') {
      restDeg[k] = restDeg[k]! + (cell.slowDeg * k * RECORD_STEP_S) / 60;
    }
    heelDeg[k] = heelDeg[k]! + restDeg[k]!;
  }
  return { restDeg, heelDeg, readDeg: heelDeg.map((heel) => heel + random.normal(cell.noiseDeg)) };
}

/** Heel she would be held at by what turns her beside white noise. */
function forcing(cell: EstimatorCell, random: Random, count: number): Float64Array {
  const forced = new Float64Array(count);
  if (cell.truth === 'turbulent wind') {
    const powers = GUST_TIMES_S.map((timeS) => timeS ** (2 / 3));
    const all = powers.reduce((sum, power) => sum + power, 0);
    GUST_TIMES_S.forEach((timeS, n) => {
      const deviation = cell.slowDeg * Math.sqrt(powers[n]! / all);
      const kept = Math.exp(-RECORD_STEP_S / timeS);
      let value = random.normal(deviation);
      for (let k = 0; k < count; k++) {
        value = kept * value + random.normal(deviation * Math.sqrt(1 - kept * kept));
        forced[k] = forced[k]! + value;
      }
    });
  }
  const { periodS } = cell;
  if (cell.truth === 'wave band') addWaves(forced, random, [0.75 * periodS, 1.4 * periodS]);
  if (cell.truth === 'two waves') {
    addWaves(forced, random, [1.6 * periodS, 2 * periodS]);
    addWaves(forced, random, [0.6 * periodS, 0.75 * periodS]);
  }
  return forced;
}

const WAVES_IN_BAND = 60;

/** Waves of periods within a band and none outside it: nothing slow in them. Standard deviation 1 together. */
function addWaves(forced: Float64Array, random: Random, band: readonly [number, number]): void {
  for (let n = 0; n < WAVES_IN_BAND; n++) {
    const frequency = random.between(1 / band[1], 1 / band[0]);
    const cosine = random.normal(1 / Math.sqrt(WAVES_IN_BAND));
    const sine = random.normal(1 / Math.sqrt(WAVES_IN_BAND));
    for (let k = 0; k < forced.length; k++) {
      const turn = 2 * Math.PI * frequency * k * RECORD_STEP_S;
      forced[k] = forced[k]! + cosine * Math.cos(turn) + sine * Math.sin(turn);
    }
  }
}

/** Seconds for the oscillator to forget that it began at rest. */
const FORGETS_S = 200;

function linearRoll(cell: EstimatorCell, random: Random, forcedDeg: Float64Array): Float64Array {
  const waves = cell.truth === 'wave band' || cell.truth === 'two waves';
  const white = waves ? 0 : cell.rollDeg;
  const roll = whiteRoll(cell, white, random, forcedDeg);
  if (waves) {
    const later = roll.subarray(roll.length / 3);
    const size = Math.sqrt(later.reduce((sum, value) => sum + value * value, 0) / later.length);
    for (let k = 0; k < roll.length; k++) roll[k] = (roll[k]! * cell.rollDeg) / size;
  }
  const ringing = freeRoll(cell, random, roll.length);
  return roll.map((value, k) => value + ringing[k]!);
}

/** Exact on the step: white noise on the oscillator, and a forcing that stands still for a step. */
function whiteRoll(
  cell: EstimatorCell,
  rollDeg: number,
  random: Random,
  forcedDeg: Float64Array,
): Float64Array {
  const step = rollStep({ ...cell, rollDeg }, RECORD_STEP_S);
  const l11 = Math.sqrt(step.q11);
  const l21 = l11 > 0 ? step.q12 / l11 : 0;
  const l22 = Math.sqrt(Math.max(0, step.q22 - l21 * l21));
  let roll = random.normal(rollDeg);
  let rate = random.normal(rollDeg);
  const before = Math.round(FORGETS_S / RECORD_STEP_S);
  const out = new Float64Array(forcedDeg.length);
  for (let k = rollDeg > 0 ? 0 : -before; k < out.length; k++) {
    // A band of waves is the same function of time before the record began: mirrored.
    const forced = forcedDeg[Math.min(Math.abs(k), out.length - 1)]!;
    const first = random.normal();
    const second = random.normal();
    const off = roll - forced;
    roll = forced + step.a11 * off + step.a12 * rate + l11 * first;
    rate = step.a21 * off + step.a22 * rate + l21 * first + l22 * second;
    if (k >= 0) out[k] = roll;
  }
  return out;
}

/** A ringing let go at any phase, added to what is driven. */
function freeRoll(cell: EstimatorCell, random: Random, count: number): Float64Array {
  const step = rollStep({ ...cell, rollDeg: 0 }, RECORD_STEP_S);
  const phase = random.between(0, 2 * Math.PI);
  let roll = cell.ringingDeg * Math.cos(phase);
  let rate = cell.ringingDeg * Math.sin(phase);
  return Float64Array.from({ length: count }, () => {
    const next = step.a11 * roll + step.a12 * rate;
    rate = step.a21 * roll + step.a22 * rate;
    roll = next;
    return next;
  });
}

/** Of the damping at one degree of roll, the part that grows with the roll. */
const QUADRATIC_AT_ONE_DEG = 0.04;
const FINE = 5;

/** Damping grows with the rate of roll: ratio + QUADRATIC_AT_ONE_DEG times the rate's amplitude. */
function quadraticRoll(cell: EstimatorCell, random: Random, count: number): Float64Array {
  const phase = random.between(0, 2 * Math.PI);
  const stepS = RECORD_STEP_S / FINE;
  let roll = random.normal(cell.rollDeg) + cell.ringingDeg * Math.cos(phase);
  let rate = random.normal(cell.rollDeg) + cell.ringingDeg * Math.sin(phase);
  const kick = rollStep(cell, stepS);
  const spread = Math.sqrt(kick.q22);
  const out = new Float64Array(count);
  for (let k = 0; k < count * FINE; k++) {
    const dampingRatio = cell.dampingRatio + QUADRATIC_AT_ONE_DEG * Math.abs(rate);
    const step = rollStep({ ...cell, dampingRatio }, stepS);
    const next = step.a11 * roll + step.a12 * rate;
    rate = step.a21 * roll + step.a22 * rate + random.normal(spread);
    roll = next;
    if (k % FINE === FINE - 1) out[(k - FINE + 1) / FINE] = roll;
  }
  return out;
}
