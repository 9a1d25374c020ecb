/** The middle value; the mean of the two middle ones of an even count. NaN for none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  if (sorted.length === 0) return Number.NaN;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** For normal values the median absolute deviation times this is their standard deviation. */
const NORMAL_PER_MAD = 1.482602218505602;

/** Standard deviation as the middle half of the values tells it: a few wild ones do not count. */
export function robustSpread(values: readonly number[]): number {
  const middle = median(values);
  return NORMAL_PER_MAD * median(values.map((value) => Math.abs(value - middle)));
}
