import { type Body, sectionAt } from '#core/hull/body.ts';
import type { ShipPoint, Waterline } from '#core/hull/waterline.ts';
import { upwardNormal } from '#core/hull/waterline.ts';

/** A closed surface of triangles, in right-handed axes: x forward, y to PORT, z up. */
export interface Facets {
  readonly vertices: Float64Array;
  readonly triangles: Uint32Array;
}

/**
 * A body as triangles, `along` sections in each interval between stations and `around` straight
 * pieces for each edge that is a parabola. The ship's axes are left-handed; this is the one place
 * that turns them: y changes its sign.
 */
export function facetsOf(body: Body, along: number, around: number): Facets {
  const vertices: number[] = [];
  const vertex = (x: number, y: number, z: number): number => {
    vertices.push(x, -y, z);
    return vertices.length / 3 - 1;
  };
  const rows: { starboard: number[]; port: number[] }[] = [];
  const nodes = new Float64Array(2 * body.nodes);
  for (let interval = 0; interval + 1 < body.xM.length; interval++) {
    const step = body.xM[interval + 1]! - body.xM[interval]!;
    if (step === 0) continue;
    const last = interval + 2 === body.xM.length;
    for (let k = 0; k < along + (last ? 1 : 0); k++) {
      sectionAt(body, interval, k / along, nodes, 0);
      const x = body.xM[interval]! + (k / along) * step;
      const outline = outlineOf(body, nodes, around);
      const starboard = outline.map(([y, z]) => vertex(x, y, z));
      // The two sides share their ends on the centre plane and nothing else, even where they touch.
      const port = outline.map(([y, z], n) =>
        n === 0 || n === outline.length - 1 ? starboard[n]! : vertex(x, -y, z),
      );
      rows.push({ starboard, port });
    }
  }
  return { vertices: Float64Array.from(vertices), triangles: trianglesOf(rows) };
}

function outlineOf(body: Body, nodes: Float64Array, around: number): [number, number][] {
  const outline: [number, number][] = [
    [nodes[2 * body.edges[0]!]!, nodes[2 * body.edges[0]! + 1]!],
  ];
  for (let e = 0; e < body.edges.length; e += 3) {
    const [a, m, b] = [body.edges[e]!, body.edges[e + 1]!, body.edges[e + 2]!];
    const pieces = m < 0 ? 1 : around;
    for (let k = 1; k <= pieces; k++) {
      const t = k / pieces;
      const value = (c: 0 | 1) => {
        const [from, to] = [nodes[2 * a + c]!, nodes[2 * b + c]!];
        const middle = m < 0 ? (from + to) / 2 : nodes[2 * m + c]!;
        return from + t * (4 * middle - 3 * from - to + t * 2 * (from + to - 2 * middle));
      };
      outline.push([value(0), value(1)]);
    }
  }
  return outline;
}

function trianglesOf(rows: readonly { starboard: number[]; port: number[] }[]): Uint32Array {
  const triangles: number[] = [];
  const add = (a: number, b: number, c: number) => {
    if (a !== b && b !== c && a !== c) triangles.push(a, b, c);
  };
  const quad = (a: number, b: number, c: number, d: number) => {
    add(a, b, c);
    add(a, c, d);
  };
  const count = rows[0]!.starboard.length;
  for (let r = 0; r + 1 < rows.length; r++) {
    const [aft, forward] = [rows[r]!, rows[r + 1]!];
    for (let k = 0; k + 1 < count; k++) {
      quad(
        aft.starboard[k]!,
        forward.starboard[k]!,
        forward.starboard[k + 1]!,
        aft.starboard[k + 1]!,
      );
      quad(aft.port[k + 1]!, forward.port[k + 1]!, forward.port[k]!, aft.port[k]!);
    }
  }
  const [first, last] = [rows[0]!, rows.at(-1)!];
  for (let k = 0; k + 1 < count; k++) {
    quad(first.port[k]!, first.starboard[k]!, first.starboard[k + 1]!, first.port[k + 1]!);
    quad(last.starboard[k]!, last.port[k]!, last.port[k + 1]!, last.starboard[k + 1]!);
  }
  return Uint32Array.from(triangles);
}

/** Volume and centre of the part below the water by clipping each triangle, plainly. */
export function clipped(
  { vertices, triangles }: Facets,
  waterline: Waterline,
): { volumeM3: number; centre: ShipPoint } {
  const up = upwardNormal(waterline);
  const height = new Float64Array(vertices.length / 3);
  for (let v = 0; v < height.length; v++) {
    height[v] =
      up.xM * vertices[3 * v]! -
      up.yM * vertices[3 * v + 1]! +
      up.zM * vertices[3 * v + 2]! -
      waterline.levelM;
  }
  const sums: Sums = {
    volume: 0,
    x: 0,
    y: 0,
    z: 0,
    origin: [up.xM * waterline.levelM, -up.yM * waterline.levelM, up.zM * waterline.levelM],
  };
  const kept: number[][] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    kept.length = 0;
    for (let k = 0; k < 3; k++) {
      const a = triangles[t + k]!;
      const b = triangles[t + ((k + 1) % 3)]!;
      const [ha, hb] = [height[a]!, height[b]!];
      if (ha <= 0) kept.push([vertices[3 * a]!, vertices[3 * a + 1]!, vertices[3 * a + 2]!]);
      if (ha <= 0 !== hb <= 0) {
        const share = ha / (ha - hb);
        kept.push(
          [0, 1, 2].map(
            (c) => vertices[3 * a + c]! + share * (vertices[3 * b + c]! - vertices[3 * a + c]!),
          ),
        );
      }
    }
    for (let k = 1; k + 1 < kept.length; k++) addCone(sums, kept[0]!, kept[k]!, kept[k + 1]!);
  }
  const { volume } = sums;
  return {
    volumeM3: volume,
    centre: { xM: sums.x / volume, yM: -sums.y / volume, zM: sums.z / volume },
  };
}

interface Sums {
  volume: number;
  x: number;
  y: number;
  z: number;
  /** A point in the water's surface: cones from it close the cut without its own triangles. */
  readonly origin: readonly number[];
}

function addCone(
  sums: Sums,
  a: readonly number[],
  b: readonly number[],
  c: readonly number[],
): void {
  const o = sums.origin;
  const [ax, ay, az] = [a[0]! - o[0]!, a[1]! - o[1]!, a[2]! - o[2]!];
  const [bx, by, bz] = [b[0]! - o[0]!, b[1]! - o[1]!, b[2]! - o[2]!];
  const [cx, cy, cz] = [c[0]! - o[0]!, c[1]! - o[1]!, c[2]! - o[2]!];
  const volume =
    (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
  sums.volume += volume;
  sums.x += (volume * (a[0]! + b[0]! + c[0]! + o[0]!)) / 4;
  sums.y += (volume * (a[1]! + b[1]! + c[1]! + o[1]!)) / 4;
  sums.z += (volume * (a[2]! + b[2]! + c[2]! + o[2]!)) / 4;
}
