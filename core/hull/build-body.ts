import { Fault } from '../fault/fault.ts';
import { type Body, type NodeLines, sectionAt, type WorkedSections } from './body.ts';
import { type Directions, directionsThrough } from './fairing.ts';
import { gaussRule } from './gauss.ts';
import { PREFIX, writePrefix } from './outline-path.ts';
import { cutSection, SUMS } from './section-cut.ts';

type Pair = readonly [number, number];

/** Directions of each node line; a station given twice parts the lines there. */
export function fairNodeLines(
  xM: readonly number[],
  places: readonly (readonly Pair[])[],
): { coming: Pair[][]; leaving: Pair[][] } {
  const coming: Pair[][] = xM.map(() => []);
  const leaving: Pair[][] = xM.map(() => []);
  const nodes = places[0]?.length ?? 0;
  let from = 0;
  for (let to = 1; to <= xM.length; to++) {
    if (to < xM.length && xM[to]! > xM[to - 1]!) continue;
    if (to - from < 2)
      throw new Fault('hull-offsets', 'stations', `one station alone at x ${xM[from]}`);
    for (let node = 0; node < nodes; node++) {
      const line: Directions = directionsThrough(
        xM.slice(from, to),
        places.slice(from, to).map((station) => station[node]!),
      );
      for (let i = from; i < to; i++) {
        coming[i]!.push(line.coming[i - from]!);
        leaving[i]!.push(line.leaving[i - from]!);
      }
    }
    from = to;
  }
  return { coming, leaving };
}

/** Packs the node lines of a body and works out its sections. */
export function bodyFromNodes(lines: NodeLines): Body {
  const nodes = lines.places[0]?.length ?? 0;
  const flat = (rows: readonly (readonly Pair[])[]) =>
    Float64Array.from(rows.flatMap((row) => row.flat()));
  const parts = {
    name: lines.name,
    sign: lines.sign,
    xM: Float64Array.from(lines.xM),
    nodes,
    edges: Int32Array.from(lines.edges.flat()),
    corners: Int32Array.from(lines.corners),
    places: flat(lines.places),
    coming: flat(lines.coming),
    leaving: flat(lines.leaving),
  };
  const room = {
    scratch: { u: new Float64Array(nodes), v: new Float64Array(nodes) },
    own: {
      nodes: new Float64Array(2 * nodes),
      prefix: new Float64Array(PREFIX * (parts.edges.length / 3 + 1)),
    },
    sums: new Float64Array(SUMS),
  };
  return { ...parts, sections: workedSections(parts), room };
}

/** Few stations get more points each: the lines between them bend more. */
function pointsPerInterval(intervals: number): number {
  if (intervals >= 16) return 3;
  if (intervals >= 9) return 4;
  return 6;
}

function workedSections(body: Omit<Body, 'sections' | 'room'>): WorkedSections {
  const intervals = body.xM.length - 1;
  const perInterval = pointsPerInterval(intervals);
  const rule = gaussRule(perInterval);
  const count = intervals * perInterval;
  const width = 2 * body.nodes;
  const xM = new Float64Array(count);
  const widthM = new Float64Array(count);
  const nodes = new Float64Array(count * width);
  const path = PREFIX * (body.edges.length / 3 + 1);
  const prefix = new Float64Array(count * path);
  const bounds = new Float64Array(count * 3);
  const whole = new Float64Array(count * 2);
  const scratch = { u: new Float64Array(body.nodes), v: new Float64Array(body.nodes) };
  for (let s = 0; s < count; s++) {
    const interval = Math.floor(s / perInterval);
    const point = s % perInterval;
    const step = body.xM[interval + 1]! - body.xM[interval]!;
    xM[s] = body.xM[interval]! + rule.at[point]! * step;
    widthM[s] = rule.weight[point]! * step;
    sectionAt(body, interval, rule.at[point]!, nodes, s * width);
    writePrefix(body.edges, nodes, s * width, prefix, s * path);
    const [mostY, leastZ, mostZ] = boundsOf(body, nodes, s * width);
    bounds.set([mostY, leastZ, mostZ], 3 * s);
    const sums = new Float64Array(SUMS);
    const over = { cosineY: 0, cosineZ: 1, offsetM: mostZ + 1 };
    for (const side of [1, -1] as const) {
      cutSection(body.edges, { nodes, prefix }, s * width, s * path, side, over, scratch, sums);
    }
    whole.set([sums[0]!, sums[2]! + (mostZ + 1) * sums[0]!], 2 * s);
  }
  return { perInterval, xM, widthM, places: { nodes, prefix }, bounds, whole };
}

/** Greatest half-breadth, least and greatest height that the edges can reach. */
function boundsOf(
  body: Pick<Body, 'nodes' | 'edges'>,
  places: Float64Array,
  at: number,
): [number, number, number] {
  let [mostY, leastZ, mostZ] = [0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const take = (y: number, z: number) => {
    mostY = Math.max(mostY, Math.abs(y));
    leastZ = Math.min(leastZ, z);
    mostZ = Math.max(mostZ, z);
  };
  for (let k = 0; k < body.nodes; k++) take(places[at + 2 * k]!, places[at + 2 * k + 1]!);
  for (let e = 0; e < body.edges.length; e += 3) {
    const m = body.edges[e + 1]!;
    if (m < 0) continue;
    const handle = (c: 0 | 1) => {
      const node = (k: number) => places[at + 2 * k + c]!;
      return 2 * node(m) - (node(body.edges[e]!) + node(body.edges[e + 2]!)) / 2;
    };
    take(handle(0), handle(1));
  }
  return [mostY, leastZ, mostZ];
}
