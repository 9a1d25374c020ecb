/** Heights of labels in a column: each as near its own as may be, none over another, in the same order. */
export function labelPlaces(
  wanted: readonly number[],
  apart: number,
  from: number,
  to: number,
): number[] {
  const order = wanted.map((_, k) => k).sort((a, b) => wanted[a]! - wanted[b]!);
  const step = Math.min(apart, (to - from) / Math.max(1, wanted.length - 1));
  const placed: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (const k of order) {
    last = Math.max(wanted[k]!, last + step, from);
    placed[k] = last;
  }
  // Pushed beyond the foot: drawn back up from there.
  let limit = to;
  for (const k of order.toReversed()) {
    if (placed[k]! <= limit) break;
    placed[k] = limit;
    limit -= step;
  }
  return placed;
}
