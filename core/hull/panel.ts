import { Fault } from '../fault/fault.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import type { SectionCurve } from './section-curve.ts';

type Pair = readonly [number, number];

/** A parabola turns about this much at most, so that it lies within a millionth of the curve. */
const MOST_TURN_RAD = radiansFromDegrees(8);
const LEAST_PARABOLAS = 3;
const MOST_PARABOLAS = 32;
/** Parabolas where the lines run from point to point. */
const MOST_SPANS = 80;
/** Where the girth of a panel is cut to see how it turns. */
const CELLS = 96;
/** How evenly a panel is parted by girth: the rest follows its turning. */
const EVEN_SHARE = 0.35;
/** A panel bent less than this share of its length is straight. */
const STRAIGHT = 1e-9;
/** Points of neighbouring sections run on into each other when their places in the panel differ by less. */
const LIKE_PLACE = 0.2;

/**
 * Parts a panel, the outline between two knuckle lines, alike at all stations: shares of the whole
 * girth for each, the panel's beginning left out. One part where the panel is straight everywhere,
 * else an even count, two for each parabola. Where all stations have as many points, at like
 * places, the lines run from point to point (waterlines stay waterlines); else by like girth.
 */
export function partPanel(curves: readonly SectionCurve[], ends: readonly Pair[]): number[][] {
  const panels = curves.map((curve, i) => panelOf(curve, ends[i]!));
  if (panels.every((panel) => panel.deviation <= STRAIGHT)) return ends.map(([, to]) => [to]);
  const spans = spansFromPoints(panels);
  if (spans !== null) {
    const even = [...spans.map((_, k) => k / spans.length), 1];
    return panels.map((panel, i) => {
      const [from, to] = ends[i]!;
      const points = panel.closed ? even : panel.points;
      return spans.flatMap((parts, k) =>
        Array.from({ length: 2 * parts }, (_, part) => {
          const share = points[k]! + ((points[k + 1]! - points[k]!) * (part + 1)) / (2 * parts);
          return from + (to - from) * share;
        }),
      );
    });
  }
  const partings = partingsByGirth(panels);
  return ends.map(([from, to]) => partings.map((share) => from + (to - from) * share));
}

interface Panel {
  readonly closed: boolean;
  /** Turn in each cell, radians. */
  readonly turns: readonly number[];
  /** Farthest from its chord, as a share of the chord. */
  readonly deviation: number;
  /** Given points within the panel with its two ends, shares of the panel. */
  readonly points: readonly number[];
}

function panelOf(curve: SectionCurve, [from, to]: Pair): Panel {
  const at = (c: number) => curve.at(from + ((to - from) * c) / CELLS);
  const inner = curve.points
    .map((share) => (share - from) / (to - from))
    .filter((share) => share > 1e-9 && share < 1 - 1e-9);
  const points = [0, ...inner, 1];
  if (curve.girthM === 0) return { closed: true, turns: [], deviation: 0, points };
  const [first, last] = [at(0), at(CELLS)];
  const [dy, dz] = [last[0] - first[0], last[1] - first[1]];
  const chord = Math.hypot(dy, dz);
  const turns: number[] = [];
  let deviation = 0;
  let direction: number | null = null;
  for (let c = 0; c < CELLS; c++) {
    const [a, b] = [at(c), at(c + 1)];
    const here = Math.atan2(b[1] - a[1], b[0] - a[0]);
    const turn: number = direction === null ? 0 : here - direction;
    turns.push(Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))));
    direction = here;
    const off = Math.abs((a[0] - first[0]) * dz - (a[1] - first[1]) * dy);
    deviation = Math.max(deviation, chord === 0 ? 0 : off / (chord * chord));
  }
  return { closed: false, turns, deviation, points };
}

/** Parabolas for each span between points, or null where the stations' points are not alike. */
function spansFromPoints(panels: readonly Panel[]): number[] | null {
  const open = panels.filter((panel) => !panel.closed);
  const count = open[0]?.points.length ?? 0;
  if (count < 3 || open.some((panel) => panel.points.length !== count)) return null;
  const alike = open.every((panel, i) =>
    panel.points.every(
      (share, k) => i === 0 || Math.abs(share - open[i - 1]!.points[k]!) < LIKE_PLACE,
    ),
  );
  if (!alike) return null;
  const spans = Array.from({ length: count - 1 }, (_, k) => {
    const turn = Math.max(...open.map((panel) => turnWithin(panel, k)));
    return Math.max(1, Math.ceil(turn / MOST_TURN_RAD));
  });
  return spans.reduce((sum, one) => sum + one, 0) <= MOST_SPANS ? spans : null;
}

function turnWithin(panel: Panel, k: number): number {
  const [from, to] = [panel.points[k]! * CELLS, panel.points[k + 1]! * CELLS];
  return panel.turns.reduce((sum, turn, c) => {
    // A cell's turn lies at its beginning.
    return c >= from && c <= to ? sum + turn : sum;
  }, 0);
}

function partingsByGirth(panels: readonly Panel[]): number[] {
  const open = panels.filter((panel) => !panel.closed);
  const most = Math.max(...open.map(({ turns }) => turns.reduce((sum, one) => sum + one, 0)));
  const parabolas = Math.min(
    MOST_PARABOLAS,
    Math.max(LEAST_PARABOLAS, Math.ceil(most / MOST_TURN_RAD)),
  );
  const turning = Array.from({ length: CELLS }, (_, c) =>
    open.reduce((sum, panel) => sum + panel.turns[c]!, 0),
  );
  return equalParts(turning, parabolas).flatMap((to, k, all) => {
    const from = k === 0 ? 0 : all[k - 1]!;
    return [(from + to) / 2, to];
  });
}

/** Ends of parts that hold alike much of the turning, evened out. */
function equalParts(turning: readonly number[], parts: number): number[] {
  const total = turning.reduce((sum, one) => sum + one, 0);
  if (!(total > 0)) throw new Fault('program-fault', 'equalParts', `turning ${total}`);
  const density = turning.map((turn) => EVEN_SHARE / CELLS + ((1 - EVEN_SHARE) * turn) / total);
  const ends: number[] = [];
  let [cell, sum] = [0, 0];
  for (let part = 1; part < parts; part++) {
    const wanted = part / parts;
    while (cell < CELLS - 1 && sum + density[cell]! < wanted) sum += density[cell++]!;
    ends.push((cell + (wanted - sum) / density[cell]!) / CELLS);
  }
  return [...ends, 1];
}
