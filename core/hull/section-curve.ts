import { Fault } from '../fault/fault.ts';
import { bracketedRoot } from '../numerics/root.ts';
import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';

/** A point of a section's outline; `knuckle` keeps the change of direction there as it stands. */
export interface OutlinePoint {
  readonly yM: number;
  readonly zM: number;
  readonly knuckle?: boolean;
}

/** The outline of one section from keel to deck edge, as a curve over its girth from 0 to 1. */
export interface SectionCurve {
  readonly girthM: number;
  /** Where it has knuckles, as shares of the girth, the two ends not counted. */
  readonly knuckles: readonly number[];
  /** Where its given points lie, as shares of the girth, from 0 to 1. */
  readonly points: readonly number[];
  /** The point at a share of the girth, [y, z]. */
  at(share: number): readonly [number, number];
}

/** A turn above this is a knuckle, whatever stands beside it (our setting). */
const SURE_KNUCKLE_RAD = radiansFromDegrees(35);
/** A turn below this is never taken for a knuckle by itself (our setting). */
const LEAST_KNUCKLE_RAD = radiansFromDegrees(4);
/** Two turns belong to one bend when their sharpness differs by less than this factor. */
const ALIKE = 4;
/** A turn below this share of its neighbour's curvature is a straight run by comparison. */
const STRAIGHT_SHARE = 0.12;
/** From this share on it is as bent as its neighbour. */
const BENT_SHARE = 0.5;
const CLEARLY_LONGER = 3;
/** Share of the girth below which no panel is worth its lines. */
const LEAST_PANEL = 0.004;

interface Chords {
  readonly points: readonly OutlinePoint[];
  readonly lengthM: readonly number[];
  readonly directionRad: readonly number[];
  /** Turn at each point, radians; at the keel against the mirrored side; null where there is none. */
  readonly turnRad: readonly (number | null)[];
  /** Turn over the length it is spread on, 1/m. */
  readonly curvature: readonly number[];
  readonly marked: readonly boolean[];
}

/**
 * The curve through the points of a section. Smooth runs are cubics with the direction of the
 * circle through three neighbours; a straight run stays straight up to its last point; knuckles
 * are kept. A knuckle is a point that is repeated or marked, a turn over 35 degrees, or a turn
 * that stands alone: no neighbour turns the same way about as sharply. Where the first point
 * lies on the centre plane the mirrored side is its neighbour, so that a round bottom is level
 * at the keel and a V keeps its edge.
 */
export function sectionCurve(outline: readonly OutlinePoint[]): SectionCurve {
  const chords = chordsOf(outline);
  const { points, lengthM } = chords;
  if (points.length === 1) {
    const { yM, zM } = points[0]!;
    return { girthM: 0, knuckles: [], points: [0, 1], at: () => [yM, zM] };
  }
  const knuckle = points.map((_, i) => isKnuckle(chords, i));
  const spans = spansOf(chords, knuckle);
  const ends: number[] = [0];
  for (const length of lengthM) ends.push(ends.at(-1)! + length);
  const girthM = ends.at(-1)!;
  const inner = points.flatMap((_, i) =>
    i > 0 && i < points.length - 1 && knuckle[i] ? [ends[i]! / girthM] : [],
  );
  return {
    girthM,
    knuckles: inner,
    points: ends.map((end) => end / girthM),
    at(share) {
      const along = Math.min(1, Math.max(0, share)) * girthM;
      let j = 0;
      while (j < spans.length - 1 && ends[j + 1]! < along) j++;
      return spanAt(spans[j]!, (along - ends[j]!) / lengthM[j]!);
    },
  };
}

function chordsOf(outline: readonly OutlinePoint[]): Chords {
  const points: OutlinePoint[] = [];
  const marked: boolean[] = [];
  for (const point of outline) {
    const last = points.at(-1);
    if (last !== undefined && last.yM === point.yM && last.zM === point.zM) {
      marked[marked.length - 1] = true;
    } else {
      points.push(point);
      marked.push(point.knuckle === true);
    }
  }
  const lengthM: number[] = [];
  const directionRad: number[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const [a, b] = [points[i]!, points[i + 1]!];
    lengthM.push(Math.hypot(b.yM - a.yM, b.zM - a.zM));
    directionRad.push(Math.atan2(b.zM - a.zM, b.yM - a.yM));
  }
  const turnRad = points.map((point, i): number | null => {
    if (i === points.length - 1 || points.length === 1) return null;
    if (i > 0) return wrapped(directionRad[i]! - directionRad[i - 1]!);
    return point.yM === 0 ? wrapped(2 * directionRad[0]!) : null;
  });
  const curvature = turnRad.map((turn, i) =>
    turn === null ? 0 : turn / (i === 0 ? lengthM[0]! : (lengthM[i - 1]! + lengthM[i]!) / 2),
  );
  return { points, lengthM, directionRad, turnRad, curvature, marked };
}

function wrapped(angleRad: number): number {
  return Math.atan2(Math.sin(angleRad), Math.cos(angleRad));
}

function isSure(chords: Chords, i: number): boolean {
  const turn = chords.turnRad[i];
  if (turn === null || turn === undefined) return true;
  return chords.marked[i]! || Math.abs(turn) > SURE_KNUCKLE_RAD;
}

function isKnuckle(chords: Chords, i: number): boolean {
  const turn = chords.turnRad[i];
  if (turn === null || turn === undefined || isSure(chords, i)) return true;
  if (Math.abs(turn) <= LEAST_KNUCKLE_RAD) return false;
  return ![i - 1, i + 1].some((j) => {
    if (chords.turnRad[j] === undefined || isSure(chords, j)) return false;
    const ratio = sharpness(chords, j) / sharpness(chords, i);
    return ratio > 1 / ALIKE && ratio < ALIKE;
  });
}

/** Turn over the shorter span beside it, 1/m: a long straight side does not soften a bilge's end. */
function sharpness(chords: Chords, i: number): number {
  const shorter = Math.min(chords.lengthM[Math.max(0, i - 1)]!, chords.lengthM[i]!);
  return (chords.turnRad[i] ?? 0) / shorter;
}

interface Span {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Derivatives at the two ends by the share of the span. */
  readonly start: readonly [number, number];
  readonly end: readonly [number, number];
}

function spansOf(chords: Chords, knuckle: readonly boolean[]): Span[] {
  const { points, lengthM, directionRad } = chords;
  const tangentRad = points.map((_, i) => (knuckle[i] ? null : tangentAt(chords, knuckle, i)));
  return lengthM.map((length, j) => {
    const chord = directionRad[j]!;
    const [left, right] = [tangentRad[j]!, tangentRad[j + 1]!] as (number | null)[];
    // A free end bends like the other end of its span: a circle's arc, or a straight line.
    const out = right === null || right === undefined ? null : wrapped(right - chord);
    const into = left === null || left === undefined ? null : wrapped(chord - left);
    const atStart = into ?? out ?? 0;
    const atEnd = out ?? into ?? 0;
    // The length of derivative with which a cubic follows a circle's arc.
    const size = length / Math.cos((atStart + atEnd) / 4) ** 2;
    const [a, b] = [points[j]!, points[j + 1]!];
    return {
      from: [a.yM, a.zM],
      to: [b.yM, b.zM],
      start: [size * Math.cos(chord - atStart), size * Math.sin(chord - atStart)],
      end: [size * Math.cos(chord + atEnd), size * Math.sin(chord + atEnd)],
    };
  });
}

/**
 * Direction at a point inside a smooth run. The turn there is shared between the spans before and
 * after it as a circle would, less to a side that is straight by comparison. Towards an end or a
 * knuckle nothing is known but what the other side leaves: an arc that meets a straight line gives
 * it nothing.
 */
function tangentAt(chords: Chords, knuckle: readonly boolean[], i: number): number {
  const { lengthM, directionRad, curvature } = chords;
  if (i === 0) return 0;
  const turn = chords.turnRad[i]!;
  const before = { length: lengthM[i - 1]!, bent: bentShare(chords, knuckle, i, -1) };
  const after = { length: lengthM[i]!, bent: bentShare(chords, knuckle, i, 1) };
  const left = before.length * (before.bent ?? 1);
  const right = after.length * (after.bent ?? 1);
  const size = Math.abs(turn);
  // The part of the turn that falls to the span before; for a circle, exactly.
  let part = Math.atan2(left * Math.sin(size), right + left * Math.cos(size));
  if (after.bent === null && before.bent !== null) {
    part =
      size - meetsStraight(size, curvature[i - 1]!, before.length, after.length) * (size - part);
  }
  if (before.bent === null && after.bent !== null) {
    part *= meetsStraight(size, curvature[i + 1]!, after.length, before.length);
  }
  return directionRad[i - 1]! + Math.sign(turn) * part;
}

/**
 * 1 where an arc goes on into a last span, 0 where it meets a straight one there. An arc that ends
 * turns by half its chord's angle; one that goes on turns by the last chord's too. Told only where
 * the last span is much the longer, as a vessel's side over her bilge is.
 */
function meetsStraight(size: number, curvature: number, arcM: number, lastM: number): number {
  const goesOn = 1 + lastM / arcM;
  if (goesOn < CLEARLY_LONGER || curvature === 0) return 1;
  const turned = size / ((Math.abs(curvature) * arcM) / 2);
  const share = (turned - 1) / (goesOn - 1);
  return Math.min(1, Math.max(0, (share - STRAIGHT_SHARE) / (BENT_SHARE - STRAIGHT_SHARE)));
}

/** How far the run on one side takes part in the bend at a point, 0 straight to 1; null unknown. */
function bentShare(
  chords: Chords,
  knuckle: readonly boolean[],
  i: number,
  way: 1 | -1,
): number | null {
  const beside = chords.turnRad[i + way];
  if (beside === null || beside === undefined || knuckle[i + way]) return null;
  const here = chords.curvature[i]!;
  if (here === 0) return 1;
  const ratio = Math.abs(chords.curvature[i + way]! / here);
  // Where the next bend beyond turns the other way, the curve swings through: it is not straight.
  const beyond = chords.turnRad[i + 2 * way];
  const swings = beyond != null && chords.curvature[i + 2 * way]! / here < -STRAIGHT_SHARE;
  if (swings) return 1;
  return Math.min(1, Math.max(0, (ratio - STRAIGHT_SHARE) / (BENT_SHARE - STRAIGHT_SHARE)));
}

function spanAt(span: Span, t: number): readonly [number, number] {
  const s = 1 - t;
  const [a, b, c, d] = [(1 + 2 * t) * s * s, t * s * s, t * t * (3 - 2 * t), -t * t * s];
  return [
    a * span.from[0] + b * span.start[0] + c * span.to[0] + d * span.end[0],
    a * span.from[1] + b * span.start[1] + c * span.to[1] + d * span.end[1],
  ];
}

/** The turns that were taken as knuckles, for a person to see: place in the outline and degrees. */
export function knucklesOf(
  outline: readonly OutlinePoint[],
): { yM: number; zM: number; turnDeg: number }[] {
  const chords = chordsOf(outline);
  return chords.points.flatMap(({ yM, zM }, i) => {
    const turn = chords.turnRad[i];
    if (i === 0 || turn === null || turn === undefined || !isKnuckle(chords, i)) return [];
    return [{ yM, zM, turnDeg: degreesFromRadians(turn) }];
  });
}

/** The part of an outline below a height. Throws `hull-deck` where the outline does not reach it. */
export function curveUpTo(curve: SectionCurve, zM: number, where: string): SectionCurve {
  const [top, foot] = [curve.at(1)[1], curve.at(0)[1]];
  if (top === zM || curve.girthM === 0) return curve;
  if (!(zM < top) || !(zM > foot)) {
    throw new Fault('hull-deck', where, `z ${zM} m, the section runs from ${foot} to ${top} m`);
  }
  let from = 1;
  while (curve.at(from)[1] > zM) from -= 1 / 256;
  const end = bracketedRoot((share) => curve.at(share)[1] - zM, Math.max(0, from), from + 1 / 256);
  // A knuckle a hair below the cut is the deck's own: it gives no panel of its own.
  const below = curve.knuckles.filter((share) => share < end * (1 - LEAST_PANEL));
  return {
    girthM: curve.girthM * end,
    knuckles: below.map((share) => share / end),
    points: [...curve.points.filter((share) => share < end - 1e-9).map((share) => share / end), 1],
    at: (share) => curve.at(share * end),
  };
}
