import { Fault } from '../fault/fault.ts';
import { type Grid, type GridRow, rowsUnderHeader } from './grid.ts';
import { checkSection, checkSizes } from './offsets-check.ts';

/** A point of the table of offsets with the row it stands in. */
export interface OffsetPoint {
  readonly yM: number;
  readonly zM: number;
  readonly knuckle: boolean;
  /** Where it stands, for a fault: file, row and column. */
  readonly where: string;
}

/** A section: its points in order from the keel up. */
export interface OffsetStation {
  readonly xM: number;
  readonly points: readonly OffsetPoint[];
}

/**
 * A table of offsets, checked. Sections by ascending x; a station given twice (both faces of a step,
 * or twice the same for a knuckle fore and aft) stands twice. A point alone on the centre plane
 * between sections is one of the keel line, at an end it is where the hull closes.
 */
export interface OffsetTable {
  readonly stations: readonly OffsetStation[];
  readonly keelLine: readonly { readonly xM: number; readonly zM: number }[];
}

const COLUMNS = ['xM', 'zM', 'halfBreadthM'] as const;
type Column = (typeof COLUMNS)[number] | 'knuckle';

const LEAST_STATIONS = 5;
const MOST_STATIONS = 400;
const MOST_POINTS = 400;

/**
 * Reads the long form xM,zM,halfBreadthM[,knuckle], the points of a section in order up it. A
 * repeated point is a knuckle. Throws the codes `hull-number`, `hull-columns`, `hull-order`,
 * `hull-crossing`, `hull-few-stations`, `hull-millimetres`, `hull-asymmetric`, `hull-twin`,
 * `hull-tunnel`, `input-too-large`, each with row and column.
 */
export function offsetsFromGrid(grid: Grid): OffsetTable {
  const rows = rowsUnderHeader<Column>(grid, COLUMNS, ['knuckle']);
  const byX = new Map<number, OffsetPoint[]>();
  for (const row of rows) {
    const xM = row.number('xM');
    const points = byX.get(xM) ?? [];
    points.push(pointOf(row));
    byX.set(xM, points);
  }
  const sections = [...byX].map(([xM, points]) => ({ xM, points })).sort((a, b) => a.xM - b.xM);
  return checkedOffsets(sections, grid.name);
}

function pointOf(row: GridRow<Column>): OffsetPoint {
  const mark = row.text('knuckle');
  if (mark !== null && !['0', '1', 'yes', 'no'].includes(mark)) {
    throw new Fault(
      'hull-number',
      row.place('knuckle'),
      `${JSON.stringify(mark.slice(0, 40))}, wanted 1 or 0`,
    );
  }
  return {
    yM: row.number('halfBreadthM'),
    zM: row.number('zM'),
    knuckle: mark === '1' || mark === 'yes',
    where: row.place('halfBreadthM'),
  };
}

/** Checks sections by ascending x, each with its points as given; `name` says where they came from. */
export function checkedOffsets(sections: readonly OffsetStation[], name: string): OffsetTable {
  checkSizes(sections);
  const faces = sections.flatMap(({ xM, points }) =>
    facesOf(points).map((face) => ({ xM, points: face })),
  );
  if (faces.length > MOST_STATIONS) {
    throw new Fault('input-too-large', name, `${faces.length} stations, at most ${MOST_STATIONS}`);
  }
  const last = faces.length - 1;
  const keelLine: { xM: number; zM: number }[] = [];
  const stations = faces.filter(({ xM, points }, i) => {
    if (points.length > MOST_POINTS) {
      throw new Fault('input-too-large', points[0]!.where, `${points.length} points in a section`);
    }
    if (points.length > 1) {
      checkSection(points);
      return true;
    }
    const [point] = points;
    if (point!.yM !== 0) {
      throw new Fault(
        'hull-offsets',
        point!.where,
        `a point alone at x ${xM}, off the centre plane`,
      );
    }
    if (i === 0 || i === last) return true;
    keelLine.push({ xM, zM: point!.zM });
    return false;
  });
  const places = new Set(stations.map((station) => station.xM));
  if (places.size < LEAST_STATIONS) {
    throw new Fault('hull-few-stations', name, `${places.size} stations`);
  }
  return { stations, keelLine };
}

/** A section that begins again from its foot holds two faces, the after one first. */
function facesOf(points: readonly OffsetPoint[]): OffsetPoint[][] {
  const foot = points[0]!;
  const top = Math.max(...points.map((point) => point.zM));
  const half = (foot.zM + top) / 2;
  for (let k = 2; k + 1 < points.length; k++) {
    const [before, here] = [points[k - 1]!, points[k]!];
    const atFoot = here.yM <= foot.yM && (foot.yM === 0 || here.zM <= foot.zM);
    if (before.zM > half && here.zM < half && atFoot) {
      return [points.slice(0, k), points.slice(k)];
    }
  }
  return [[...points]];
}
