import { bracketedRoot } from '../numerics/root.ts';
import { type Body, nodeAt, sectionAt } from './body.ts';
import { gaussRule } from './gauss.ts';
import { writePrefix } from './outline-path.ts';
import { cutSection } from './section-cut.ts';
import { type ShipPoint, upwardNormal, type Waterline } from './waterline.ts';

/**
 * All integrals of one cut, in ship axes: the immersed volume with its moments, and the water's
 * surface inside the hull with its first and second moments (of its own plane: `along` is distance
 * fore and aft in that plane, `across` athwartships in it).
 */
export interface Cut {
  readonly volumeM3: number;
  readonly momentXM4: number;
  readonly momentYM4: number;
  readonly momentZM4: number;
  readonly areaM2: number;
  /** First moments of the surface in x and in u (across). */
  readonly areaXM3: number;
  readonly areaUM3: number;
  readonly areaXxM4: number;
  readonly areaXuM4: number;
  readonly areaUuM4: number;
}

/** Cosines of the water's normal and what turns section axes into ship axes. */
export interface CutFrame {
  readonly up: ShipPoint;
  /** Cosine of the trim: the length of the normal in the plane of a section. */
  readonly level: number;
  readonly cosineY: number;
  readonly cosineZ: number;
}

export function frameOf(waterline: Waterline): CutFrame {
  const up = upwardNormal(waterline);
  const level = Math.hypot(up.yM, up.zM);
  return { up, level, cosineY: up.yM / level, cosineZ: up.zM / level };
}

const TOTALS = 10;

/** Cuts bodies by a waterline. Trim of 90 degrees has no sections and gives no finite numbers. */
export function cutBodies(bodies: readonly Body[], waterline: Waterline): Cut {
  const frame = frameOf(waterline);
  const totals = new Float64Array(TOTALS);
  for (const body of bodies) cutBody(body, frame, waterline.levelM, totals);
  const [volumeM3, momentXM4, momentU, momentV, area, areaX, areaU, areaXx, areaXu, areaUu] =
    totals as unknown as readonly [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
  return {
    volumeM3,
    momentXM4,
    momentYM4: momentU * frame.cosineZ + momentV * frame.cosineY,
    momentZM4: -momentU * frame.cosineY + momentV * frame.cosineZ,
    areaM2: area / frame.level,
    areaXM3: areaX / frame.level,
    areaUM3: areaU / frame.level,
    areaXxM4: areaXx / frame.level,
    areaXuM4: areaXu / frame.level,
    areaUuM4: areaUu / frame.level,
  };
}

function cutBody(body: Body, frame: CutFrame, levelM: number, totals: Float64Array): void {
  const { sections } = body;
  for (let interval = 0; interval + 1 < body.xM.length; interval++) {
    if (body.xM[interval + 1] === body.xM[interval]) continue;
    const breaks = breaksOf(body, interval, frame, levelM);
    if (breaks.length === 0) {
      const first = interval * sections.perInterval;
      for (let s = first; s < first + sections.perInterval; s++) {
        addWorked(body, s, frame, levelM, totals);
      }
    } else addInPieces(body, interval, breaks, frame, levelM, totals);
  }
}

function addWorked(
  body: Body,
  s: number,
  frame: CutFrame,
  levelM: number,
  totals: Float64Array,
): void {
  const { sections } = body;
  const { scratch, sums } = body.room;
  const xM = sections.xM[s]!;
  const offsetM = (levelM - frame.up.xM * xM) / frame.level;
  const { cosineY, cosineZ } = frame;
  const reach = Math.abs(cosineY) * sections.bounds[3 * s]!;
  const foot = cosineZ * sections.bounds[3 * s + 1]!;
  const top = cosineZ * sections.bounds[3 * s + 2]!;
  const low = Math.min(foot, top);
  const high = Math.max(foot, top);
  if (low - reach >= offsetM) return;
  const weight = body.sign * sections.widthM[s]!;
  if (high + reach <= offsetM) {
    const area = sections.whole[2 * s]!;
    const momentZ = sections.whole[2 * s + 1]!;
    totals[0] = totals[0]! + weight * area;
    totals[1] = totals[1]! + weight * area * xM;
    totals[2] = totals[2]! - weight * momentZ * cosineY;
    totals[3] = totals[3]! + weight * momentZ * cosineZ;
    return;
  }
  sums.fill(0);
  const line = { cosineY, cosineZ, offsetM };
  const at = 2 * body.nodes * s;
  const path = (body.edges.length + 3) * s;
  cutSection(body.edges, sections.places, at, path, 1, line, scratch, sums);
  if (cosineY === 0) twice(sums);
  else cutSection(body.edges, sections.places, at, path, -1, line, scratch, sums);
  addSums(sums, weight, xM, offsetM, totals);
}

/** Upright both sides are alike: moments across cancel. */
function twice(sums: Float64Array): void {
  for (const k of [0, 2, 3, 5]) sums[k] = 2 * sums[k]!;
  sums[1] = 0;
  sums[4] = 0;
}

function addSums(
  sums: Float64Array,
  weight: number,
  xM: number,
  offsetM: number,
  totals: Float64Array,
): void {
  const area = weight * sums[0]!;
  const length = weight * sums[3]!;
  totals[0] = totals[0]! + area;
  totals[1] = totals[1]! + area * xM;
  totals[2] = totals[2]! + weight * sums[1]!;
  totals[3] = totals[3]! + weight * sums[2]! + area * offsetM;
  totals[4] = totals[4]! + length;
  totals[5] = totals[5]! + length * xM;
  totals[6] = totals[6]! + weight * sums[4]!;
  totals[7] = totals[7]! + length * xM * xM;
  totals[8] = totals[8]! + weight * sums[4]! * xM;
  totals[9] = totals[9]! + weight * sums[5]!;
}

const PIECE_RULE = gaussRule(4);

/** An interval in which edges of the hull pass through the water: each piece between by itself. */
function addInPieces(
  body: Body,
  interval: number,
  breaks: readonly number[],
  frame: CutFrame,
  levelM: number,
  totals: Float64Array,
): void {
  const { scratch, own, sums } = body.room;
  const step = body.xM[interval + 1]! - body.xM[interval]!;
  const { cosineY, cosineZ } = frame;
  const ends = [0, ...breaks, 1];
  for (let piece = 0; piece + 1 < ends.length; piece++) {
    const [from, to] = [ends[piece]!, ends[piece + 1]!];
    for (let point = 0; point < PIECE_RULE.at.length; point++) {
      const share = from + (to - from) * PIECE_RULE.at[point]!;
      const xM = body.xM[interval]! + share * step;
      const offsetM = (levelM - frame.up.xM * xM) / frame.level;
      sectionAt(body, interval, share, own.nodes, 0);
      writePrefix(body.edges, own.nodes, 0, own.prefix, 0);
      sums.fill(0);
      const line = { cosineY, cosineZ, offsetM };
      cutSection(body.edges, own, 0, 0, 1, line, scratch, sums);
      if (cosineY === 0) twice(sums);
      else cutSection(body.edges, own, 0, 0, -1, line, scratch, sums);
      const weight = body.sign * PIECE_RULE.weight[point]! * (to - from) * step;
      addSums(sums, weight, xM, offsetM, totals);
    }
  }
}

const NONE: readonly number[] = [];

/** Shares of an interval at which an edge of the hull meets the water, ascending. */
export function breaksOf(
  body: Body,
  interval: number,
  frame: CutFrame,
  levelM: number,
): readonly number[] {
  const width = 2 * body.nodes;
  const from = interval * width;
  const to = from + width;
  const { up } = frame;
  const aft = levelM - up.xM * body.xM[interval]!;
  const forward = levelM - up.xM * body.xM[interval + 1]!;
  let breaks: number[] | null = null;
  const sides = up.yM === 0 ? 1 : 2;
  for (const node of body.corners) {
    for (let k = 0; k < sides; k++) {
      const across = k === 0 ? up.yM : -up.yM;
      const before =
        across * body.places[from + 2 * node]! + up.zM * body.places[from + 2 * node + 1]! - aft;
      const after =
        across * body.places[to + 2 * node]! + up.zM * body.places[to + 2 * node + 1]! - forward;
      if (before < 0 === after < 0) continue;
      breaks ??= [];
      breaks.push(meeting(body, interval, node, across, frame, levelM));
    }
  }
  return breaks === null ? NONE : breaks.sort((a, b) => a - b);
}

/** Where a corner's cubic meets the water, as a share of the interval. */
function meeting(
  body: Body,
  interval: number,
  node: number,
  across: number,
  frame: CutFrame,
  levelM: number,
): number {
  const step = body.xM[interval + 1]! - body.xM[interval]!;
  const height = (share: number) => {
    const [y, z] = nodeAt(body, interval, node, share);
    return (
      across * y + frame.up.zM * z + frame.up.xM * (body.xM[interval]! + share * step) - levelM
    );
  };
  const [low, high] = [height(0), height(1)];
  // The ends were judged by the same heights, rounded another way.
  if (low < 0 === high < 0) return Math.abs(low) < Math.abs(high) ? 0 : 1;
  return bracketedRoot(height, 0, 1);
}
