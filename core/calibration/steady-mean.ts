/** One number read off an instrument at rest. */
export interface SteadyMean {
  readonly mean: number;
  /** Standard error of the mean, from what its seconds differ by: noise and wander alike. */
  readonly standardError: number;
  /** Standard deviation of single samples about their own second. */
  readonly noise: number;
  /** Its last second against its first. */
  readonly drift: number;
  readonly seconds: number;
  /** Long enough, and no second is further from the mean than the limit. */
  readonly isSteady: boolean;
}

/** Seconds a number is read over at least: five. Our setting. */
export const LEAST_SECONDS = 5;
/** Seconds of one instrument at rest that may differ so much from their mean: degrees, mm. Ours. */
export const MOST_SWING = { inclinometer: 0.003, 'water-tube': 0.2 } as const;

/**
 * Mean of an indication over its last seconds, and whether it stood still: on a bench there is no
 * roll to be modelled, only settling and noise. Samples come at `samplesPerS`; a missing one ends
 * what is taken. Null under two seconds.
 */
export function steadyMean(
  indicated: readonly (number | null)[],
  of: { samplesPerS: number; seconds: number; mostSwing: number },
): SteadyMean | null {
  const missing = indicated.lastIndexOf(null);
  const whole = indicated.slice(missing + 1) as number[];
  const seconds = Math.min(of.seconds, Math.floor(whole.length / of.samplesPerS));
  if (seconds < 2) return null;
  const taken = whole.slice(-seconds * of.samplesPerS);
  const blocks = Array.from({ length: seconds }, (_, k) =>
    taken.slice(k * of.samplesPerS, (k + 1) * of.samplesPerS),
  );
  const means = blocks.map(meanOf);
  const mean = meanOf(means);
  const squares = means.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const within = blocks.reduce(
    (sum, block, k) => sum + block.reduce((each, one) => each + (one - means[k]!) ** 2, 0),
    0,
  );
  return {
    mean,
    standardError: Math.sqrt(squares / (seconds - 1) / seconds),
    noise: Math.sqrt(within / (taken.length - seconds)),
    drift: means.at(-1)! - means[0]!,
    seconds,
    isSteady:
      seconds >= LEAST_SECONDS && means.every((one) => Math.abs(one - mean) <= of.mostSwing),
  };
}

function meanOf(values: readonly number[]): number {
  // About the first value, so that a large zero costs no digits.
  const first = values[0]!;
  return first + values.reduce((sum, one) => sum + (one - first), 0) / values.length;
}
