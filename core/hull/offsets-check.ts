import { Fault, type FaultCode } from '../fault/fault.ts';
import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import type { OffsetPoint, OffsetStation } from './offsets.ts';

/** No vessel this program serves is this long, broad or deep, metres. */
const MOST_M = 450;
/** A hull broader or deeper than this many times its length has its columns in different units. */
const MOST_OF_LENGTH = 3;
const MOST_TURN_RAD = radiansFromDegrees(150);

/** Sizes that cannot be metres, and half-breadths that are none. */
export function checkSizes(stations: readonly OffsetStation[]): void {
  const first = stations[0]?.xM ?? 0;
  const length = (stations.at(-1)?.xM ?? 0) - first;
  for (const { xM, points } of stations) {
    for (const { yM, zM, where } of points) {
      if (yM < 0) throw new Fault('hull-asymmetric', where, `half-breadth ${yM} m`);
      const sizes = [
        { column: 'halfBreadthM', sizeM: yM },
        { column: 'zM', sizeM: zM },
        { column: 'xM', sizeM: xM },
      ] as const;
      for (const { column, sizeM } of sizes) {
        const place = inColumn(where, column);
        if (Math.abs(sizeM) > MOST_M) throw new Fault('hull-millimetres', place, `${sizeM} m`);
        if (column === 'xM' || stations.length < 2) continue;
        if (Math.abs(sizeM) > MOST_OF_LENGTH * length) {
          const found = `${sizeM} m beside a length of ${length} m`;
          throw new Fault('hull-millimetres', place, found);
        }
      }
    }
  }
}

/** The place of a point, which names its half-breadth, for another of its columns. */
function inColumn(where: string, column: 'xM' | 'zM' | 'halfBreadthM'): string {
  return where.replace(/halfBreadthM$/, column);
}

/** One section's points: in order, without crossing, from the centre plane up. */
export function checkSection(points: readonly OffsetPoint[]): void {
  checkFoot(points);
  for (let i = 1; i < points.length; i++) {
    const [before, here] = [points[i - 1]!, points[i]!];
    if (here.zM < before.zM && here.yM <= before.yM) {
      const place = { ...here, where: inColumn(here.where, 'zM') };
      refuse('hull-order', place, `z ${here.zM} m comes after z ${before.zM} m`);
    }
    if (i > 1) checkTurn(points[i - 2]!, before, here);
  }
  for (let i = 1; i < points.length; i++) {
    for (let j = i + 2; j < points.length; j++) {
      if (cross(points[i - 1]!, points[i]!, points[j - 1]!, points[j]!)) {
        refuse(
          'hull-crossing',
          points[j]!,
          `the line to it crosses the line at z ${points[i]!.zM} m`,
        );
      }
    }
  }
}

/**
 * A bottom may rise to the centre plane by this share of the section's height, or this much, without
 * being a tunnel: a flat bottom taped ashore, a hollow of the plating. Its outline is held as it is. Ours.
 */
const HOLLOW_SHARE = 0.01;
const HOLLOW_M = 0.01;

/** The first points tell a tunnel and a twin hull: the outline goes down from where it begins. */
function checkFoot(points: readonly OffsetPoint[]): void {
  const foot = points[0]!;
  const lowest = Math.min(...points.map((point) => point.zM));
  const next = points.find((point) => point.zM !== foot.zM || point.yM !== foot.yM);
  const height = Math.max(...points.map((point) => point.zM)) - lowest;
  const hollow = Math.max(HOLLOW_SHARE * height, HOLLOW_M);
  if (next === undefined || !(next.zM < foot.zM) || !(foot.zM - lowest > hollow)) return;
  if (foot.yM === 0)
    refuse('hull-tunnel', next, `z ${next.zM} m below ${foot.zM} m on the centre plane`);
  refuse('hull-twin', foot, `the outline goes down from half-breadth ${foot.yM} m`);
}

function checkTurn(a: OffsetPoint, b: OffsetPoint, c: OffsetPoint): void {
  const before = Math.atan2(b.zM - a.zM, b.yM - a.yM);
  const after = Math.atan2(c.zM - b.zM, c.yM - b.yM);
  if ((a.yM === b.yM && a.zM === b.zM) || (b.yM === c.yM && b.zM === c.zM)) return;
  const turn = Math.abs(Math.atan2(Math.sin(after - before), Math.cos(after - before)));
  if (turn > MOST_TURN_RAD) {
    refuse(
      'hull-order',
      c,
      `the outline turns back on itself by ${degreesFromRadians(turn)} degrees`,
    );
  }
}

function cross(a: OffsetPoint, b: OffsetPoint, c: OffsetPoint, d: OffsetPoint): boolean {
  const side = (p: OffsetPoint, q: OffsetPoint, r: OffsetPoint) =>
    Math.sign((q.yM - p.yM) * (r.zM - p.zM) - (q.zM - p.zM) * (r.yM - p.yM));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

function refuse(code: FaultCode, point: OffsetPoint, found: string): never {
  throw new Fault(code, point.where, found);
}
