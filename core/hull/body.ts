import type { Edges } from './outline-path.ts';
import type { Scratch, SectionPlaces } from './section-cut.ts';

/**
 * One closed body in stations along x, all with the same nodes; its mirror image on the port side
 * belongs to it. Between stations each node runs along a cubic.
 */
export interface Body {
  readonly name: string;
  /** 1 for a body that displaces water, -1 for one that lets it in (a tunnel, a well). */
  readonly sign: 1 | -1;
  readonly xM: Float64Array;
  /** Nodes of a section. */
  readonly nodes: number;
  readonly edges: Edges;
  /** Nodes at which the outline has an edge: there the integrals along x are cut in pieces. */
  readonly corners: Int32Array;
  /** y, z of each node, station by station. */
  readonly places: Float64Array;
  /** dy/dx, dz/dx coming to a station from aft, and leaving it forward. */
  readonly coming: Float64Array;
  readonly leaving: Float64Array;
  readonly sections: WorkedSections;
  /** Room for one section, written over by every cut. */
  readonly room: Room;
}

export interface Room {
  readonly scratch: Scratch;
  readonly own: SectionPlaces;
  readonly sums: Float64Array;
}

/** Sections at the points of Gauss quadrature between the stations, worked out once. */
export interface WorkedSections {
  /** Points in each interval between two stations; intervals of no length have them too, unused. */
  readonly perInterval: number;
  readonly xM: Float64Array;
  /** Length of x each stands for. */
  readonly widthM: Float64Array;
  readonly places: SectionPlaces;
  /** Greatest half-breadth, least and greatest height. */
  readonly bounds: Float64Array;
  /** Area of both sides, and its moment over the baseline. */
  readonly whole: Float64Array;
}

/** Directions and places of all nodes at all stations, as `bodyFromNodes` takes them. */
export interface NodeLines {
  readonly name: string;
  readonly sign: 1 | -1;
  readonly xM: readonly number[];
  readonly edges: readonly (readonly [from: number, by: number, to: number])[];
  readonly corners: readonly number[];
  readonly places: readonly (readonly (readonly [number, number])[])[];
  readonly coming: readonly (readonly (readonly [number, number])[])[];
  readonly leaving: readonly (readonly (readonly [number, number])[])[];
}

/** Places of the nodes at a share of an interval, written into `out` from `at` on. */
export function sectionAt(
  body: Pick<Body, 'xM' | 'nodes' | 'places' | 'coming' | 'leaving'>,
  interval: number,
  share: number,
  out: Float64Array,
  at: number,
): void {
  const width = 2 * body.nodes;
  const [from, to] = [interval * width, (interval + 1) * width];
  const step = body.xM[interval + 1]! - body.xM[interval]!;
  const rest = 1 - share;
  const a = (1 + 2 * share) * rest * rest;
  const b = share * rest * rest * step;
  const c = share * share * (3 - 2 * share);
  const d = -share * share * rest * step;
  for (let k = 0; k < width; k++) {
    out[at + k] =
      a * body.places[from + k]! +
      b * body.leaving[from + k]! +
      c * body.places[to + k]! +
      d * body.coming[to + k]!;
  }
}

/** The cubic between two values with their slopes over the whole interval (Hermite). */
export function cubicAt(
  from: number,
  leaving: number,
  to: number,
  coming: number,
  share: number,
): number {
  const rest = 1 - share;
  return (
    (1 + 2 * share) * rest * rest * from +
    share * rest * rest * leaving +
    share * share * (3 - 2 * share) * to -
    share * share * rest * coming
  );
}

/** One node's place at a share of an interval, [y, z]. */
export function nodeAt(
  body: Body,
  interval: number,
  node: number,
  share: number,
): readonly [number, number] {
  const width = 2 * body.nodes;
  const step = body.xM[interval + 1]! - body.xM[interval]!;
  const value = (k: number) => {
    const [from, to] = [interval * width + k, (interval + 1) * width + k];
    return cubicAt(
      body.places[from]!,
      body.leaving[from]! * step,
      body.places[to]!,
      body.coming[to]! * step,
      share,
    );
  };
  return [value(2 * node), value(2 * node + 1)];
}

/** The interval between stations in which an x lies, and the share of it; null outside the body. */
export function intervalAt(body: Body, xM: number): { interval: number; share: number } | null {
  const last = body.xM.length - 1;
  if (!(xM >= body.xM[0]! && xM <= body.xM[last]!)) return null;
  for (let interval = 0; interval < last; interval++) {
    const [from, to] = [body.xM[interval]!, body.xM[interval + 1]!];
    if (to > from && xM <= to) return { interval, share: (xM - from) / (to - from) };
  }
  return null;
}
