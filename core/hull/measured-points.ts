import { Fault } from '../fault/fault.ts';
import { bracketedRoot } from '../numerics/root.ts';
import { checkPositive } from '../quantity/check.ts';
import { type Grid, rowsUnderHeader } from './grid.ts';
import { type Fairness, fairnessOf } from './measured-fairness.ts';
import {
  type MeasuredPoint,
  type MeasuredSection,
  type PolarPoint,
  radiusAt,
} from './measured-section.ts';
import type { OffsetPoint, OffsetStation } from './offsets.ts';

export interface MeasuredHull {
  /** Sections as `checkedOffsets` takes them, both halves made one. */
  readonly stations: readonly OffsetStation[];
  readonly sections: readonly MeasuredSection[];
  readonly fairness: Fairness;
}

/** Points whose x differ by less belong to one section (our setting). */
const SAME_SECTION_M = 0.02;
const LEAST_POINTS = 3;
const MOST_POINTS = 5000;
const MOST_CENTRE_OFF_M = 0.3;
/** Points nearer to each other than this are one point: twice the same would make a knuckle. */
const SAME_POINT_M = 0.002;

/** Where the points of a side are looked at from. */
interface Pole {
  readonly zM: number;
  /** Beyond the centre plane from the side looked at. */
  readonly behindM: number;
}

/** Reads xM,yM,zM in any order. Throws `hull-columns`, `hull-number`, `input-too-large`. */
export function measuredPointsFromGrid(grid: Grid): MeasuredPoint[] {
  const rows = rowsUnderHeader(grid, ['xM', 'yM', 'zM'] as const);
  if (rows.length > MOST_POINTS) {
    throw new Fault('input-too-large', grid.name, `${rows.length} points, at most ${MOST_POINTS}`);
  }
  return rows.map((row) => ({
    xM: row.number('xM'),
    yM: row.number('yM'),
    zM: row.number('zM'),
    where: row.place('yM'),
  }));
}

/**
 * Sections from points measured ashore, in any order within a section, on one side or both. The
 * points of a side are put in order by their angle about a pole above the hull and as far beyond the
 * centre plane as she is deep, from which bottoms and sides both are seen in order.
 * Where both sides were measured the tape's centre plane is moved so that they agree best, and the
 * outline is their mean; else the side is mirrored. Nothing is smoothed and nothing left out: what
 * is not fair is named. Throws `input-too-few` for a section of under three points.
 */
export function hullFromMeasuredPoints(points: readonly MeasuredPoint[]): MeasuredHull {
  const groups = grouped(points);
  const heights = points.map((point) => point.zM);
  const [foot, top] = [Math.min(...heights), Math.max(...heights)];
  const heightM = checkPositive(top - foot, 'height of the measured hull');
  const pole = { zM: top + 0.1 * heightM, behindM: heightM };
  const sections = groups.map((group) => sectionOf(group, pole));
  return {
    sections,
    stations: sections.map((section) => stationOf(section, pole)),
    fairness: fairnessOf(sections),
  };
}

function grouped(points: readonly MeasuredPoint[]): MeasuredPoint[][] {
  const groups: MeasuredPoint[][] = [];
  for (const point of [...points].sort((a, b) => a.xM - b.xM)) {
    const group = groups.at(-1);
    if (group !== undefined && point.xM - group[0]!.xM < SAME_SECTION_M) group.push(point);
    else groups.push([point]);
  }
  return groups;
}

function sectionOf(group: readonly MeasuredPoint[], pole: Pole): MeasuredSection {
  const xM = group.reduce((sum, point) => sum + point.xM, 0) / group.length;
  const starboard = group.filter((point) => point.yM > 0);
  const port = group.filter((point) => point.yM < 0);
  const middle = group.filter((point) => point.yM === 0);
  const both = starboard.length >= LEAST_POINTS && port.length >= LEAST_POINTS;
  if (!both && Math.max(starboard.length, port.length) + middle.length < LEAST_POINTS) {
    throw new Fault(
      'input-too-few',
      group[0]!.where,
      `${group.length} points in the section at x ${xM}`,
    );
  }
  const sides = (offM: number) => ({
    starboard: polar([...middle, ...starboard], pole, offM),
    port: polar([...middle, ...port], pole, offM),
  });
  if (!both) {
    const { starboard: s, port: p } = sides(0);
    const empty: PolarPoint[] = [];
    const given = starboard.length >= port.length;
    return {
      xM,
      starboard: given ? s : empty,
      port: given ? empty : p,
      centreOffM: null,
      halvesDifferM: null,
    };
  }
  const centreOffM = centreOff(sides, group[0]!.where);
  const found = sides(centreOffM);
  const differ = differences(found.starboard, found.port);
  const square = differ.reduce((sum, one) => sum + one * one, 0);
  return {
    xM,
    ...found,
    centreOffM,
    halvesDifferM: Math.sqrt(square / Math.max(1, differ.length)),
  };
}

function polar(points: readonly MeasuredPoint[], pole: Pole, offM: number): PolarPoint[] {
  return points
    .map((point) => {
      // A point on the tape's centre plane (the keel) is on the hull's.
      const off = point.yM === 0 ? 0 : Math.abs(point.yM - offM);
      const across = off + pole.behindM;
      const down = pole.zM - point.zM;
      return { angleRad: Math.atan2(across, down), radiusM: Math.hypot(across, down), point };
    })
    .sort((a, b) => a.angleRad - b.angleRad);
}

function differences(starboard: readonly PolarPoint[], port: readonly PolarPoint[]): number[] {
  return starboard.flatMap((one) => {
    const other = radiusAt(port, one.angleRad);
    return other === null || one.point.yM === 0 ? [] : [one.radiusM - other];
  });
}

/** The shift at which the two halves differ by nothing on the whole. */
function centreOff(
  sides: (offM: number) => { starboard: PolarPoint[]; port: PolarPoint[] },
  where: string,
): number {
  const sum = (offM: number) => {
    const { starboard, port } = sides(offM);
    const weighted = starboard.flatMap((one) => {
      const other = radiusAt(port, one.angleRad);
      // Only the part across the ship tells of the centre plane.
      return other === null || one.point.yM === 0
        ? []
        : [(one.radiusM - other) * Math.sin(one.angleRad)];
    });
    return weighted.reduce((all, one) => all + one, 0);
  };
  if (sum(-MOST_CENTRE_OFF_M) * sum(MOST_CENTRE_OFF_M) >= 0) {
    throw new Fault(
      'hull-asymmetric',
      where,
      `the halves do not agree within ${MOST_CENTRE_OFF_M} m`,
    );
  }
  return bracketedRoot(sum, -MOST_CENTRE_OFF_M, MOST_CENTRE_OFF_M);
}

/** One outline of a section: the side with more points, in the middle between the two. */
function stationOf(section: MeasuredSection, pole: Pole): OffsetStation {
  const fuller = section.starboard.length >= section.port.length;
  const [own, other] = fuller
    ? [section.starboard, section.port]
    : [section.port, section.starboard];
  const points: OffsetPoint[] = [];
  for (const { angleRad, radiusM, point } of own) {
    const mirror = radiusAt(other, angleRad);
    const radius = mirror === null ? radiusM : (radiusM + mirror) / 2;
    const yM = point.yM === 0 ? 0 : radius * Math.sin(angleRad) - pole.behindM;
    const zM = pole.zM - radius * Math.cos(angleRad);
    const last = points.at(-1);
    if (last !== undefined && Math.hypot(last.yM - yM, last.zM - zM) < SAME_POINT_M) continue;
    points.push({ yM, zM, knuckle: false, where: point.where });
  }
  return { xM: section.xM, points };
}
