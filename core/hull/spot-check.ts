import { Fault } from '../fault/fault.ts';
import type { Contribution } from '../quantity/uncertainty.ts';
import { intervalAt, nodeAt, sectionAt } from './body.ts';
import { deckEdgeAt, type Hull } from './hull.ts';
import { hydrostaticsAt } from './hydrostatics.ts';
import type { Waterline } from './waterline.ts';

/** What was taped on the vessel herself at one station; heights over the baseline of the plan. */
export interface SpotMeasured {
  readonly xM: number;
  /** Breadth over both sides at a height. */
  readonly beam?: { readonly zM: number; readonly beamM: number };
  /** Deck edge over keel. */
  readonly depthM?: number;
  /** Height of the deck edge (the sheer) over a level line, and of the keel over the same line. */
  readonly sheerM?: number;
  readonly keelM?: number;
  /** A draught mark: what it reads, and its height over the baseline as measured. */
  readonly mark?: { readonly readsM: number; readonly measuredM: number };
}

export type SpotKind = 'beam' | 'depth' | 'sheer' | 'keel' | 'mark';

export interface SpotDifference {
  readonly kind: SpotKind;
  readonly xM: number;
  readonly measuredM: number;
  readonly plannedM: number;
  /** Measured less planned. */
  readonly differenceM: number;
}

export interface SpotCheck {
  readonly differences: readonly SpotDifference[];
  /** Differences larger than a tape and a fair hull explain: the plan may be of another boat. */
  readonly doubtful: readonly SpotDifference[];
  /** Standard uncertainties the hull's plan brings, cause by cause. */
  readonly displacementT: readonly Contribution[];
  readonly kmM: readonly Contribution[];
  /** Of the two, by cause: one error moves both, together or against each other. */
  readonly correlations: readonly (1 | -1)[];
}

const LEAST_STATIONS = 3;
/** Our setting: a hundredth of the size, or 20 mm. */
const DOUBTFUL_SHARE = 0.01;
const DOUBTFUL_M = 0.02;

/**
 * Whether the lines plan fits this boat. The mean difference of each kind stays in the uncertainty as
 * it is (nothing is corrected by it), joined by its own standard error. Beam scales the hull
 * athwartships; sheer, depth, keel and marks move the draught that freeboards and marks give. Throws
 * `input-too-few` for fewer than three stations, `input-range` for a station beyond the hull.
 */
export function spotCheck(
  hull: Hull,
  waterline: Waterline,
  densityTM3: number,
  measured: readonly SpotMeasured[],
): SpotCheck {
  if (new Set(measured.map((one) => one.xM)).size < LEAST_STATIONS) {
    throw new Fault('input-too-few', 'spot checks', `${measured.length} stations, three at least`);
  }
  const differences = measured.flatMap((one) => differencesAt(hull, one));
  const afloat = hydrostaticsAt(hull, waterline, densityTM3);
  const deeper = hydrostaticsAt(
    hull,
    { ...waterline, levelM: waterline.levelM + 0.01 },
    densityTM3,
  );
  const kmByDraught = (deeper.kmTransverseM - afloat.kmTransverseM) / 0.01;
  const tonnesByDraught = afloat.immersionTPerCm * 100;
  const displacementT: Contribution[] = [];
  const kmM: Contribution[] = [];
  const correlations: (1 | -1)[] = [];
  for (const kind of ['beam', 'depth', 'sheer', 'keel', 'mark'] as const) {
    const of = differences.filter((one) => one.kind === kind);
    if (of.length === 0) continue;
    const broader = kind === 'beam';
    const off = spread(
      of.map((one) => (broader ? one.differenceM / one.plannedM : one.differenceM)),
    );
    const cause = `the lines plan: ${kind} at ${of.length} stations`;
    const degreesOfFreedom = off.degreesOfFreedom;
    const [tonnes, metres] = broader
      ? [afloat.displacementT, 2 * afloat.bmTransverseM]
      : [tonnesByDraught, Math.abs(kmByDraught)];
    displacementT.push({ cause, standardUncertainty: off.size * tonnes, degreesOfFreedom });
    correlations.push(broader || kmByDraught > 0 ? 1 : -1);
    kmM.push({ cause, standardUncertainty: off.size * metres, degreesOfFreedom });
  }
  const doubtful = differences.filter(isDoubtful);
  return { differences, doubtful, displacementT, kmM, correlations };
}

function isDoubtful({ differenceM, plannedM }: SpotDifference): boolean {
  return Math.abs(differenceM) > Math.max(DOUBTFUL_M, DOUBTFUL_SHARE * Math.abs(plannedM));
}

function spread(values: readonly number[]): { size: number; degreesOfFreedom: number } {
  const n = values.length;
  const mean = values.reduce((sum, one) => sum + one, 0) / n;
  if (n === 1) return { size: Math.abs(mean), degreesOfFreedom: 1 };
  const square = values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (n - 1);
  return { size: Math.hypot(mean, Math.sqrt(square / n)), degreesOfFreedom: n - 1 };
}

function differencesAt(hull: Hull, one: SpotMeasured): SpotDifference[] {
  const { xM } = one;
  const edge = deckEdgeAt(hull, xM);
  const place = intervalAt(hull.main, xM);
  if (edge === null || place === null) {
    throw new Fault(
      'input-range',
      `spot check at x ${xM}`,
      `the hull runs from ${hull.fromXM} to ${hull.toXM} m`,
    );
  }
  const keel = nodeAt(hull.main, place.interval, 0, place.share)[1];
  const found: SpotDifference[] = [];
  const add = (kind: SpotKind, measuredM: number | undefined, plannedM: number) => {
    if (measuredM === undefined) return;
    found.push({ kind, xM, measuredM, plannedM, differenceM: measuredM - plannedM });
  };
  if (one.beam !== undefined)
    add('beam', one.beam.beamM, 2 * halfBreadthAtM(hull, xM, one.beam.zM));
  add('depth', one.depthM, edge.zM - keel);
  add('sheer', one.sheerM, edge.zM);
  add('keel', one.keelM, keel);
  if (one.mark !== undefined) add('mark', one.mark.measuredM, one.mark.readsM);
  return found;
}

/** Half-breadth of the hull proper at a height; throws `input-range` where it has none. */
export function halfBreadthAtM(hull: Hull, xM: number, zM: number): number {
  const { main } = hull;
  const place = intervalAt(main, xM);
  const nodes = new Float64Array(2 * main.nodes);
  if (place !== null) {
    sectionAt(main, place.interval, place.share, nodes, 0);
    for (let e = main.edges.length - 3; e >= 0; e -= 3) {
      const ends = [main.edges[e]!, main.edges[e + 2]!].map((k) => nodes[2 * k + 1]! - zM);
      if (ends[0]! < 0 === ends[1]! < 0) continue;
      return widthOn(nodes, main.edges.subarray(e, e + 3), zM);
    }
  }
  throw new Fault('input-range', `beam at x ${xM}`, `no side of the hull at z ${zM} m`);
}

/** Where an edge passes a height, by halving: it runs up or down once between its ends. */
function widthOn(nodes: Float64Array, edge: Int32Array, zM: number): number {
  const [a, m, b] = [edge[0]!, edge[1]!, edge[2]!];
  const value = (c: 0 | 1, t: number) => {
    const [from, to] = [nodes[2 * a + c]!, nodes[2 * b + c]!];
    const middle = m < 0 ? (from + to) / 2 : nodes[2 * m + c]!;
    return from + t * (4 * middle - 3 * from - to + t * 2 * (from + to - 2 * middle));
  };
  const begins = value(1, 0) < zM;
  let [low, high] = [0, 1];
  for (let count = 0; count < 60; count++) {
    const t = (low + high) / 2;
    if (value(1, t) < zM === begins) low = t;
    else high = t;
  }
  return value(0, (low + high) / 2);
}
