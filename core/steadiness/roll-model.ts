/**
 * How the heel of a floating vessel at rest moves about its mean: a damped oscillator driven by
 * chance (roll; a ringing after a weight lands is the same oscillator let go), a random heel by
 * wind and current of three paces, and the instrument's own noise. The instrument's flicker noise
 * is a slow random heel like the wind's, and one window cannot tell them apart: it is counted there.
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
  /** Standard deviation of the heel by gusts of WIND_TIMES_S, one for each. */
  readonly windDeg: readonly [quick: number, middle: number, slow: number];
}

/**
 * The random heel by wind and current: what these would hold her at. Three first-order processes
 * with correlation times a factor of five apart (our choice) span a wind spectrum from seconds to
 * minutes; their sum falls as f^(-5/3) where each is larger than the next quicker one by 5^(1/3).
 */
export const WIND_TIMES_S = [4, 20, 100] as const;
/** From one wind time to the next. */
const WIND_TIME_RATIO = 5;

/**
 * Sizes of the three parts by the middle one and the colour of the wind: a part's standard
 * deviation goes with its time to the power of `colour`, 1/3 for a spectrum that falls as f^(-5/3).
 */
export function windOf(middleDeg: number, colour: number): [number, number, number] {
  const slower = WIND_TIME_RATIO ** colour;
  return [middleDeg / slower, middleDeg, middleDeg * slower];
}

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

/** The step of roll and rate over a block, with the mean of roll over it. */
export interface RollBlockStep extends PairStep {
  /** What the mean over the block takes of roll and rate at its beginning. */
  readonly m1: number;
  readonly m2: number;
  /** Variance that chance adds to the mean, and its covariance with what it adds to roll and rate. */
  readonly qm: number;
  readonly q1m: number;
  readonly q2m: number;
}

/** Smoothed samples in a block. */
export const SAMPLES_IN_BLOCK = 4;

/**
 * Roll over one block of samples, with their mean, exactly: a quick roll moves within a block, and
 * a mean taken for a single value would look like a smoother, less damped roll.
 */
export function rollBlockStep(
  model: Pick<RollModel, 'periodS' | 'dampingRatio' | 'rollDeg'>,
): RollBlockStep {
  const fine = rollStep(model, BLOCK_S / SAMPLES_IN_BLOCK);
  const { a11, a12, a21, a22, q11, q12, q22 } = fine;
  // From one sample's chance to the end of the block, and to the sum of the samples from it on.
  let [e11, e12, e21, e22] = [1, 0, 0, 1];
  let [sum1, sum2] = [0, 0];
  let [w11, w12, w22, wm, w1m, w2m] = [0, 0, 0, 0, 0, 0];
  for (let back = 0; back < SAMPLES_IN_BLOCK; back++) {
    sum1 += e11;
    sum2 += e12;
    const [r1, r2] = [e11 * q11 + e12 * q12, e11 * q12 + e12 * q22];
    const [s1, s2] = [e21 * q11 + e22 * q12, e21 * q12 + e22 * q22];
    w11 += r1 * e11 + r2 * e12;
    w12 += r1 * e21 + r2 * e22;
    w22 += s1 * e21 + s2 * e22;
    w1m += r1 * sum1 + r2 * sum2;
    w2m += s1 * sum1 + s2 * sum2;
    wm += sum1 * (q11 * sum1 + q12 * sum2) + sum2 * (q12 * sum1 + q22 * sum2);
    const [f11, f12] = [a11 * e11 + a12 * e21, a11 * e12 + a12 * e22];
    e21 = a21 * e11 + a22 * e21;
    e22 = a21 * e12 + a22 * e22;
    e11 = f11;
    e12 = f12;
  }
  const count = SAMPLES_IN_BLOCK;
  return {
    ...{ a11: e11, a12: e12, a21: e21, a22: e22, q11: w11, q12: w12, q22: w22 },
    m1: (sum1 * a11 + sum2 * a21) / count,
    m2: (sum1 * a12 + sum2 * a22) / count,
    qm: wm / count ** 2,
    q1m: w1m / count,
    q2m: w2m / count,
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

/** Standard deviation of the mean of a first-order random heel over a window, degrees; exact for it. */
export function windMeanSpreadDeg(deviationDeg: number, timeS: number, windowS: number): number {
  const x = windowS / timeS;
  return (deviationDeg / x) * Math.sqrt(2 * (x + Math.expm1(-x)));
}

/** What the mean over a window would be worth, were the model known: roll, random heel and noise. */
export function meanSpreadDeg(model: RollModel, windowS: number): number {
  return Math.hypot(
    rollMeanSpreadDeg(model, windowS),
    ...WIND_TIMES_S.map((timeS, k) => windMeanSpreadDeg(model.windDeg[k]!, timeS, windowS)),
    model.noiseDeg * Math.sqrt(BLOCK_S / windowS),
  );
}
