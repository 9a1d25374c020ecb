import { cubicAt } from './body.ts';
import { directionsThrough } from './fairing.ts';

/**
 * A fair line through points (`fairing.ts`), as a function between the first and the last x, both
 * allowed; null outside. `xM` ascends strictly. One point answers only at its own x.
 */
export function fairLine(
  x: readonly number[],
  values: readonly number[],
): (at: number) => number | null {
  if (x.length === 1) return (at) => (at === x[0] ? values[0]! : null);
  const { coming, leaving } = directionsThrough(
    x,
    values.map((value): [number, number] => [0, value]),
  );
  return (at) => {
    if (!(at >= x[0]! && at <= x.at(-1)!)) return null;
    const next = x.findIndex((one, i) => i > 0 && at <= one);
    const step = x[next]! - x[next - 1]!;
    return cubicAt(
      values[next - 1]!,
      leaving[next - 1]![1] * step,
      values[next]!,
      coming[next]![1] * step,
      (at - x[next - 1]!) / step,
    );
  };
}
