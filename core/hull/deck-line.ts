import { Fault } from '../fault/fault.ts';
import { cubicAt } from './body.ts';
import { directionsThrough } from './fairing.ts';
import type { OffsetTable } from './offsets.ts';
import type { OutlineStation } from './outline-body.ts';
import { curveUpTo, sectionCurve } from './section-curve.ts';

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

/**
 * The stations cut at the deck. Sections at an end that begin above it (a bulwark on a raked stem) are
 * left out, and the hull closes on the centre plane where its keel line meets the deck.
 */
export function belowDeck(
  table: Pick<OffsetTable, 'stations'>,
  deck: (xM: number) => { zM: number; camberM: number },
): OutlineStation[] {
  const rows = table.stations.map(({ xM, points }) => {
    const curve = sectionCurve(points);
    return { xM, curve, deck: deck(xM), footM: curve.at(0)[1] };
  });
  const isOver = (k: number) => rows[k]!.footM > rows[k]!.deck.zM;
  const first = rows.findIndex((_, k) => !isOver(k));
  const last = rows.findLastIndex((_, k) => !isOver(k));
  if (first < 0) throw new Fault('hull-deck', 'deckLine', 'every section begins above it');
  const kept = rows.slice(first, last + 1).map((row) => ({
    xM: row.xM,
    camberM: row.deck.camberM,
    curve: curveUpTo(row.curve, row.deck.zM, `deck line at x ${row.xM}`),
  }));
  const closing = (inner: number, outer: number): OutlineStation[] => {
    const [a, b] = [rows[inner], rows[outer]];
    if (a === undefined || b === undefined) return [];
    const [below, above] = [a.deck.zM - a.footM, b.footM - b.deck.zM];
    const xM = a.xM + ((b.xM - a.xM) * below) / (below + above);
    if (xM === a.xM) return [];
    const point = { yM: 0, zM: deck(xM).zM };
    return [{ xM, camberM: 0, curve: sectionCurve([point]) }];
  };
  return [...closing(first, first - 1), ...kept, ...closing(last, last + 1)];
}
