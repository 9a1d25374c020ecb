import { Fault } from '../fault/fault.ts';
import { cubicAt } from './body.ts';
import { directionsThrough } from './fairing.ts';

export interface DeckPoint {
  readonly xM: number;
  readonly zM: number;
  readonly camberM?: number | undefined;
}

/**
 * Height of the deck at side, and how much higher its middle is, at any x between the first and the
 * last point: a fair line through the points. Throws `hull-deck` outside and for points at one x.
 */
export function deckAt(
  deckLine: readonly DeckPoint[],
): (xM: number) => { zM: number; camberM: number } {
  const points = [...deckLine].sort((a, b) => a.xM - b.xM);
  const twice = points.findIndex((point, i) => i > 0 && point.xM === points[i - 1]!.xM);
  if (twice >= 0) throw new Fault('hull-deck', 'deckLine', `two points at x ${points[twice]!.xM}`);
  const x = points.map((point) => point.xM);
  const values = points.map((point): [number, number] => [point.camberM ?? 0, point.zM]);
  const { coming, leaving } = directionsThrough(x, values);
  return (xM) => {
    const next = x.findIndex((one, i) => i > 0 && xM <= one);
    if (next < 0 || xM < x[0]!) {
      throw new Fault(
        'hull-deck',
        'deckLine',
        `a section at x ${xM}, the deck line runs from ${x[0]} to ${x.at(-1)}`,
      );
    }
    const step = x[next]! - x[next - 1]!;
    const share = (xM - x[next - 1]!) / step;
    const one = (c: 0 | 1) =>
      cubicAt(
        values[next - 1]![c],
        leaving[next - 1]![c] * step,
        values[next]![c],
        coming[next]![c] * step,
        share,
      );
    return { zM: one(1), camberM: one(0) };
  };
}
