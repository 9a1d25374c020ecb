import type { Body } from './body.ts';
import { bodyFromNodes, fairNodeLines } from './build-body.ts';
import { type KeelPoint, type StationNodes, withKeelLine } from './keel-line.ts';
import { knuckleLines } from './knuckle-lines.ts';
import { partPanel } from './panel.ts';
import type { SectionCurve } from './section-curve.ts';
import { throughShell } from './shell.ts';

/** One station of a body: its outline from keel to deck edge, and how much higher the deck's middle is. */
export interface OutlineStation {
  readonly xM: number;
  readonly curve: SectionCurve;
  readonly camberM: number;
}

export interface OutlineBody {
  readonly name: string;
  readonly sign: 1 | -1;
  readonly stations: readonly OutlineStation[];
  /** Thickness laid on outside the outline; 0 where the outline is the outside. */
  readonly shellM: number;
  /** Points of the keel or stem on the centre plane between stations. */
  readonly keelLine?: readonly KeelPoint[];
}

type Pair = readonly [number, number];

/**
 * A body through the outlines of its stations, parted by their knuckle lines (`knuckle-lines.ts`) and
 * between them by lines of like points or like girth (`panel.ts`), which run fore and aft as fair
 * lines (`fairing.ts`).
 */
export function bodyFromOutlines(outline: OutlineBody): Body {
  const { stations } = outline;
  const curves = stations.map((station) => station.curve);
  const knuckles = knuckleLines(curves);
  const panels = (knuckles[0]?.length ?? 0) + 1;
  const shares: number[][] = stations.map(() => [0]);
  const edges: [number, number, number][] = [];
  const corners: number[] = [0];
  let node = 0;
  for (let panel = 0; panel < panels; panel++) {
    const ends = stations.map(
      (_, i): Pair => [
        panel === 0 ? 0 : knuckles[i]![panel - 1]!,
        panel === panels - 1 ? 1 : knuckles[i]![panel]!,
      ],
    );
    const parted = partPanel(curves, ends);
    shares.forEach((row, i) => {
      row.push(...parted[i]!);
    });
    const count = parted[0]!.length;
    if (count === 1) edges.push([node, -1, node + 1]);
    else for (let k = 0; k < count; k += 2) edges.push([node + k, node + k + 1, node + k + 2]);
    node += count;
    corners.push(node);
  }
  const given = {
    xM: stations.map((station) => station.xM),
    camberM: stations.map((station) => station.camberM),
    places: stations.map(({ curve }, i) => shares[i]!.map((share) => curve.at(share))),
  };
  const lines = withKeelLine(given, outline.keelLine ?? []);
  const { xM } = lines;
  const places = throughShell({ xM, places: lines.places, corners, shellM: outline.shellM });
  return closedBody(outline, { ...lines, places }, edges, corners);
}

/** Closes the outline to the centre plane: level at its foot, by the camber at the deck. */
function closedBody(
  { name, sign }: OutlineBody,
  { xM, camberM, places: outline }: StationNodes,
  edges: [number, number, number][],
  corners: number[],
): Body {
  const top = outline[0]!.length;
  const places = outline.map((nodes, i): Pair[] => [
    [0, nodes[0]![1]],
    ...nodes,
    [0, nodes[top - 1]![1] + camberM[i]!],
  ]);
  const { coming, leaving } = fairNodeLines(xM, places);
  return bodyFromNodes({
    name,
    sign,
    xM,
    edges: [
      [0, -1, 1],
      ...edges.map(([a, m, b]): [number, number, number] => [a + 1, m < 0 ? -1 : m + 1, b + 1]),
      [top, -1, top + 1],
    ],
    corners: [...corners.map((node) => node + 1), top + 1],
    places,
    coming,
    leaving,
  });
}
