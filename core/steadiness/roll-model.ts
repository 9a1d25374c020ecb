/**
 * How the heel of a floating vessel at rest moves about its mean, as five numbers:
 * a damped oscillator driven by chance (roll; a ringing after a weight lands is the same
 * oscillator let go), a slow random heel (wind, current) and the instrument's own noise.
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
  /** Standard deviation of the slow random heel. */
  readonly slowDeg: number;
  /** Time over which the slow heel forgets itself to 1/e. */
  readonly slowTimeS: number;
}

/** Length of the block means the model is fitted to: over six in the shortest period served. */
export const BLOCK_S = 0.4;
export const SHORTEST_PERIOD_S = 2;
export const LONGEST_PERIOD_S = 30;

/** One step of the model: the rotation and decay of the roll, the decay of the slow heel. */
export interface RollStep {
  /** Row by row, on the state (roll, roll rate / natural frequency). */
  readonly a11: number;
  readonly a12: number;
  readonly a21: number;
  readonly a22: number;
  /** Variance the driving adds in one step, as a symmetric matrix on the same state. */
  readonly q11: number;
  readonly q12: number;
  readonly q22: number;
  readonly slowKept: number;
  readonly slowAdded: number;
}

/**
 * The exact step over `stepS` of r'' + 2 damping w r' + w^2 r = white noise. In the state
 * (r, r'/w) the stationary variance is rollDeg^2 times the unit matrix, so the driving adds
 * rollDeg^2 (I - A A').
 */
export function rollStep(model: RollModel, stepS: number): RollStep {
  const omega = (2 * Math.PI) / model.periodS;
  const damped = omega * Math.sqrt(1 - model.dampingRatio ** 2);
  const decay = Math.exp(-model.dampingRatio * omega * stepS);
  const cosine = decay * Math.cos(damped * stepS);
  const sine = decay * Math.sin(damped * stepS);
  const lean = (model.dampingRatio * omega) / damped;
  const swap = (sine * omega) / damped;
  const a11 = cosine + lean * sine;
  const a22 = cosine - lean * sine;
  const variance = model.rollDeg ** 2;
  const slowKept = Math.exp(-stepS / model.slowTimeS);
  return {
    a11,
    a12: swap,
    a21: -swap,
    a22,
    q11: variance * (1 - a11 * a11 - swap * swap),
    q12: variance * (a11 * swap - swap * a22),
    q22: variance * (1 - swap * swap - a22 * a22),
    slowKept,
    slowAdded: model.slowDeg ** 2 * (1 - slowKept * slowKept),
  };
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

/** Standard deviation of the mean of the slow heel over a window, degrees; exact for its model. */
export function slowMeanSpreadDeg(
  model: Pick<RollModel, 'slowDeg' | 'slowTimeS'>,
  windowS: number,
): number {
  const x = windowS / model.slowTimeS;
  return model.slowDeg * Math.sqrt((2 / x) * (1 + Math.expm1(-x) / x));
}

/** What the mean over a window would be worth, were the model known: roll, slow heel and noise. */
export function meanSpreadDeg(model: RollModel, windowS: number): number {
  return Math.hypot(
    rollMeanSpreadDeg(model, windowS),
    slowMeanSpreadDeg(model, windowS),
    model.noiseDeg * Math.sqrt(BLOCK_S / windowS),
  );
}
