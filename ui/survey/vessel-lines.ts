import { intervalAt, nodeAt } from '#core/hull/body.ts';
import { deckEdgeAt, type Hull } from '#core/hull/hull.ts';

/** What of a vessel is drawn: along her, the height of deck edge and keel and the deck's half-breadth. */
export interface VesselLines {
  readonly fromXM: number;
  readonly toXM: number;
  readonly halfBreadthM: number;
  readonly topZM: number;
  readonly bottomZM: number;
  /** [x, z] from aft forward. */
  readonly sheer: readonly (readonly [number, number])[];
  readonly keel: readonly (readonly [number, number])[];
  /** [x, half-breadth] of the deck edge. */
  readonly deck: readonly (readonly [number, number])[];
  /** False: only a length and a beam are known. */
  readonly byHull: boolean;
}

const PLACES = 72;

/** The lines of a hull, at places along it that lie closer at both ends. */
export function linesOfHull(hull: Hull): VesselLines {
  const { fromXM, toXM, main } = hull;
  const rows = Array.from({ length: PLACES + 1 }, (_, k) => {
    const share = (1 - Math.cos((Math.PI * k) / PLACES)) / 2;
    const xM = k === PLACES ? toXM : fromXM + share * (toXM - fromXM);
    const at = intervalAt(main, xM);
    const edge = deckEdgeAt(hull, xM);
    if (at === null || edge === null) return null;
    const foot = nodeAt(main, at.interval, 0, at.share);
    return { xM, edge, keelM: foot[1] };
  }).filter((row) => row !== null);
  const heights = rows.flatMap(({ edge, keelM }) => [edge.zM, keelM]);
  return {
    fromXM,
    toXM,
    halfBreadthM: Math.max(...rows.map(({ edge }) => edge.yM)),
    topZM: Math.max(...heights),
    bottomZM: Math.min(...heights),
    sheer: rows.map(({ xM, edge }) => [xM, edge.zM]),
    keel: rows.map(({ xM, keelM }) => [xM, keelM]),
    deck: rows.map(({ xM, edge }) => [xM, edge.yM]),
    byHull: true,
  };
}

/** Shares of length and of half-breadth of a deck nobody has the lines of: only to place things on. */
const PLAIN_DECK = [
  [0, 0.86],
  [0.05, 0.97],
  [0.3, 1],
  [0.6, 1],
  [0.75, 0.93],
  [0.88, 0.66],
  [0.96, 0.28],
  [1, 0],
] as const;
/** Depth over beam that a plain box is drawn with. */
const PLAIN_DEPTH = 0.45;

/** A plain outline by length and beam, until her hull is known. */
export function linesOfBox(lengthM: number, beamM: number): VesselLines {
  const topZM = PLAIN_DEPTH * beamM;
  return {
    fromXM: 0,
    toXM: lengthM,
    halfBreadthM: beamM / 2,
    topZM,
    bottomZM: 0,
    sheer: [
      [0, topZM],
      [lengthM, topZM],
    ],
    keel: [
      [0, 0],
      [0.9 * lengthM, 0],
      [lengthM, topZM],
    ],
    deck: PLAIN_DECK.map(([x, y]) => [x * lengthM, (y * beamM) / 2]),
    byHull: false,
  };
}

/** Where points of freeboard lie on a side about equally spaced, and the deck edge there by the hull. */
export function pointsProposed(
  hull: Hull,
  aSide: number,
): {
  point: string;
  side: 'port' | 'starboard';
  xM: number;
  halfBreadthM: number;
  heightM: number;
}[] {
  const length = hull.toXM - hull.fromXM;
  return Array.from({ length: aSide }, (_, k) => {
    // Half a space from each end: there the edge still runs along her.
    const xM = hull.fromXM + (length * (k + 0.5)) / aSide;
    const edge = deckEdgeAt(hull, xM);
    return edge === null ? [] : [{ k, edge }];
  })
    .flat()
    .flatMap(({ k, edge }) =>
      (['port', 'starboard'] as const).map((side) => ({
        point: `${side === 'port' ? 'P' : 'S'}${k + 1}`,
        side,
        xM: edge.xM,
        halfBreadthM: edge.yM,
        heightM: edge.zM,
      })),
    );
}
