import { Fault } from '../fault/fault.ts';
import { cubicAt } from './body.ts';
import { fairNodeLines } from './build-body.ts';

type Pair = readonly [number, number];

/** A point of the keel or stem on the centre plane. */
export interface KeelPoint {
  readonly xM: number;
  readonly zM: number;
}

/** Nodes of the outline, keel first, station by station. */
export interface StationNodes {
  readonly xM: readonly number[];
  readonly camberM: readonly number[];
  readonly places: readonly (readonly Pair[])[];
}

/**
 * Stations with one more at each point of the keel line. Its section is the one the stations beside
 * it give, drawn out or in below the deck so that it begins at the point's height.
 */
export function withKeelLine(given: StationNodes, keelLine: readonly KeelPoint[]): StationNodes {
  if (keelLine.length === 0) return given;
  const fair = fairNodeLines(given.xM, given.places);
  const rows = given.xM.map((xM, i) => ({
    xM,
    camberM: given.camberM[i]!,
    nodes: given.places[i]!,
  }));
  for (const point of keelLine) {
    const next = given.xM.findIndex((xM) => xM > point.xM);
    if (next <= 0 || given.xM[next - 1] === point.xM) {
      throw new Fault(
        'hull-offsets',
        `keel line at x ${point.xM}`,
        'no stations on both sides of it',
      );
    }
    const i = next - 1;
    const step = given.xM[next]! - given.xM[i]!;
    const share = (point.xM - given.xM[i]!) / step;
    const nodes = given.places[i]!.map((_, k): Pair => {
      const one = (c: 0 | 1) =>
        cubicAt(
          given.places[i]![k]![c],
          fair.leaving[i]![k]![c] * step,
          given.places[next]![k]![c],
          fair.coming[next]![k]![c] * step,
          share,
        );
      return [one(0), one(1)];
    });
    const camberM = given.camberM[i]! + share * (given.camberM[next]! - given.camberM[i]!);
    rows.push({ xM: point.xM, camberM, nodes: drawn(nodes, point) });
  }
  // A stable sort: stations given twice keep their order.
  rows.sort((a, b) => a.xM - b.xM);
  return {
    xM: rows.map((row) => row.xM),
    camberM: rows.map((row) => row.camberM),
    places: rows.map((row) => row.nodes),
  };
}

function drawn(nodes: readonly Pair[], point: KeelPoint): Pair[] {
  const deck = nodes.at(-1)![1];
  const keel = nodes[0]![1];
  if (!(point.zM < deck) || !(keel < deck)) {
    throw new Fault(
      'hull-offsets',
      `keel line at x ${point.xM}`,
      `z ${point.zM} m is not below the deck edge at ${deck} m`,
    );
  }
  return nodes.map(([y, z]): Pair => [y, deck - ((deck - z) * (deck - point.zM)) / (deck - keel)]);
}
