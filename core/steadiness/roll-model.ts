/**
 * How the heel of a floating vessel at rest moves about its mean, as six numbers:
 * a damped oscillator driven by chance (roll; a ringing after a weight lands is the same
 * oscillator let go), a random heel by wind and current, slow and quick, and the instrument's own noise.
 */
export interface RollModel {
  /** Undamped natural period of roll. */
  readonly periodS: number;
  /** Damping as a fraction of critical. */
  readonly dampingRatio: number;
  /** Standard deviation of the driven roll. */
  readonly rollDeg: number;
  /** Standard deviation of one block mean by the instrument alone. */
  readonly noiseDeg: number;
  /** Standard deviation of the slow random heel: what wind and current would hold her at. */
  readonly slowDeg: number;
  /** Standard deviation of the quick part of the same. */
  readonly quickDeg: number;
}

/**
 * Correlation times of the slow and the quick random heel. Each is smooth, with the correlation
 * (1 + x) e^-x, x = 2 t / time: a hull takes no jerks from wind, so their size is judged by slow
 * changes and not by what quick ones would promise of slow ones. Two of them span a wind spectrum
 * from seconds to minutes (our choice of times); with one alone the quick part, which a window
 * shows well, would be taken for the slow part, which it hardly shows.
 */
export const SLOW_TIME_S = 30;
export const QUICK_TIME_S = 4;

/** Length of the block means the model is fitted to: over six in the shortest period served. */
export const BLOCK_S = 0.4;
export const SHORTEST_PERIOD_S = 2;
export const LONGEST_PERIOD_S = 30;

/**
 * One step of a pair (value, its rate over its own frequency): a 2 by 2 matrix `a`, and the
 * variances its chance adds, the symmetric matrix `q`.
 */
export interface PairStep {
  readonly a11: number;
  readonly a12: number;
  readonly a21: number;
  readonly a22: number;
  readonly q11: number;
  readonly q12: number;
  readonly q22: number;
}

/** In these pairs the stationary variance is deviation^2 times the unit matrix, so chance adds (I - A A') of it. */
function pairStep(a: [number, number, number, number], deviationDeg: number): PairStep {
  const [a11, a12, a21, a22] = a;
  const variance = deviationDeg ** 2;
  return {
    a11,
    a12,
    a21,
    a22,
    q11: variance * (1 - a11 * a11 - a12 * a12),
    q12: variance * (-a11 * a21 - a12 * a22),
    q22: variance * (1 - a21 * a21 - a22 * a22),
  };
}

/** The exact step over `stepS` of r'' + 2 damping w r' + w^2 r = white noise, on (r, r'/w). */
export function rollStep(
  model: Pick<RollModel, 'periodS' | 'dampingRatio' | 'rollDeg'>,
  stepS: number,
): PairStep {
  const omega = (2 * Math.PI) / model.periodS;
  const root = Math.sqrt(1 - model.dampingRatio ** 2);
  const decay = Math.exp(-model.dampingRatio * omega * stepS);
  const cosine = decay * Math.cos(root * omega * stepS);
  const sine = (decay * Math.sin(root * omega * stepS)) / root;
  const lean = model.dampingRatio * sine;
  return pairStep([cosine + lean, sine, -sine, cosine - lean], model.rollDeg);
}

/** The same for a smooth random heel: an oscillator damped critically. */
export function smoothStep(deviationDeg: number, timeS: number, stepS: number): PairStep {
  const x = (2 * stepS) / timeS;
  const kept = Math.exp(-x);
  return pairStep([kept * (1 + x), kept * x, -kept * x, kept * (1 - x)], deviationDeg);
}

/**
 * Standard deviation of the plain mean of a narrow-band roll over a window, degrees:
 * roll sqrt(4 damping/(w W) + 2/(w W)^2). Asymptotic in W over the roll period.
 */
export function rollMeanSpreadDeg(
  model: Pick<RollModel, 'periodS' | 'dampingRatio' | 'rollDeg'>,
  windowS: number,
): number {
  const turned = ((2 * Math.PI) / model.periodS) * windowS;
  return model.rollDeg * Math.sqrt((4 * model.dampingRatio) / turned + 2 / turned ** 2);
}

/** Standard deviation of the mean of a smooth random heel over a window, degrees; exact for it. */
export function smoothMeanSpreadDeg(deviationDeg: number, timeS: number, windowS: number): number {
  const x = (2 * windowS) / timeS;
  return (deviationDeg / x) * Math.sqrt(2 * (2 * x - 3 + Math.exp(-x) * (3 + x)));
}

/** What the mean over a window would be worth, were the model known: roll, random heel and noise. */
export function meanSpreadDeg(model: RollModel, windowS: number): number {
  return Math.hypot(
    rollMeanSpreadDeg(model, windowS),
    smoothMeanSpreadDeg(model.slowDeg, SLOW_TIME_S, windowS),
    smoothMeanSpreadDeg(model.quickDeg, QUICK_TIME_S, windowS),
    model.noiseDeg * Math.sqrt(BLOCK_S / windowS),
  );
}
