import { LONGEST_PERIOD_S, type RollModel, SHORTEST_PERIOD_S, windOf } from './roll-model.ts';

/**
 * What is known of the model before a window is looked at: each number is normal about `mean` with
 * `spread`. At the start of a day these are wide; every accepted reading
 * narrows them. Order: logarithms of period, damping, roll, noise and the wind's middle part; colour
 * of the wind.
 */
export interface RollPrior {
  readonly mean: readonly number[];
  readonly spread: readonly number[];
}

/**
 * Before the day has taught anything: workboats roll in 3 to 10 s with 2 to 15 % of critical
 * damping (common practice, no source); wind holds her a few thousandths of a degree off (our
 * assumption), in gusts whose spectrum falls about as f^(-5/3). Spreads are such that one window
 * overrules them.
 */
export const FIRST_PRIOR: RollPrior = {
  mean: [...[5.5, 0.05, 0.1, 0.002, 0.003].map(Math.log), 1 / 3],
  spread: [0.6, 0.7, 1.5, 1.3, 1.2, 0.3],
};

/** No instrument is quieter than this for a block; keeps a perfect record computable. */
const LEAST_NOISE_DEG = 1e-5;
const LEAST_ROLL_DEG = 1e-6;
/** Wind never quite sleeps: each of its parts is taken to be at least this. */
export const LEAST_WIND_DEG = 0.0005;
const MOST_COLOUR = 1.5;
const MOST_DAMPING = 0.9;
const LEAST_DAMPING = 1e-4;

/** How much each number may differ from state to state, as a spread. */
const BETWEEN_STATES = [0.02, 0.25, 0.35, 0.2, 0.3, 0.03];

const within = (value: number, least: number, most: number) =>
  Math.min(Math.max(value, least), most);

/** Minus the logarithm of what was known before, at six numbers, but for a constant. */
export function priorCost(logs: ArrayLike<number>, prior: RollPrior): number {
  let cost = 0;
  for (let i = 0; i < prior.mean.length; i++) {
    cost += 0.5 * ((logs[i]! - prior.mean[i]!) / prior.spread[i]!) ** 2;
  }
  return cost;
}

/** The model of six logarithms, kept inside what can be computed; the floors are joined smoothly. */
export function modelOf(logs: ArrayLike<number>): RollModel {
  return {
    periodS: within(Math.exp(logs[0]!), SHORTEST_PERIOD_S, LONGEST_PERIOD_S),
    dampingRatio: within(Math.exp(logs[1]!), LEAST_DAMPING, MOST_DAMPING),
    rollDeg: Math.hypot(Math.min(Math.exp(logs[2]!), 90), LEAST_ROLL_DEG),
    noiseDeg: Math.hypot(Math.min(Math.exp(logs[3]!), 90), LEAST_NOISE_DEG),
    windDeg: windOf(
      Math.hypot(Math.min(Math.exp(logs[4]!), 90), LEAST_WIND_DEG),
      within(logs[5]!, -MOST_COLOUR, MOST_COLOUR),
    ),
  };
}

/** What the next window may start from when this one ended at `logs` with these spreads. */
export function priorAfter(logs: readonly number[], spread: readonly number[]): RollPrior {
  return {
    mean: [...logs],
    spread: spread.map((value, i) =>
      Math.min(Math.hypot(value, BETWEEN_STATES[i]!), FIRST_PRIOR.spread[i]!),
    ),
  };
}
