import { fairNodeLines } from './build-body.ts';

type Pair = readonly [number, number];

interface Moulded {
  readonly xM: readonly number[];
  /** Nodes of the outline, keel first, station by station. */
  readonly places: readonly (readonly Pair[])[];
  readonly corners: readonly number[];
  readonly shellM: number;
}

/**
 * The outside of the shell, from moulded outlines and the thickness of the shell: each node moves
 * out square to the shell, also fore and aft. At a corner the two offset sides are carried on to
 * meet; at the centre plane a node stays on it, at the deck it keeps its height. The flat ends
 * (a transom) get no thickness.
 */
export function throughShell({ xM, places, corners, shellM }: Moulded): Pair[][] {
  if (shellM === 0) return places.map((nodes) => [...nodes]);
  const { coming, leaving } = fairNodeLines(xM, places);
  return places.map((nodes, i) => {
    const last = nodes.length - 1;
    return nodes.map((node, k): Pair => {
      const along = middle(coming[i]![k]!, leaving[i]![k]!);
      const isCorner = corners.includes(k);
      const before = k === 0 ? null : direction(nodes, k, isCorner ? -1 : 0);
      const after = k === last ? null : direction(nodes, k, isCorner ? 1 : 0);
      const single = (along0: Pair) => moved(node, along0, along, shellM);
      if (before === null) return atKeel(node, after, single, shellM);
      if (after === null) return atDeck(node, before, along, shellM);
      return isCorner ? met(node, before, after, along, shellM) : single(before);
    });
  });
}

function middle(a: Pair, b: Pair): Pair {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

/** Unit direction of the outline at a node: towards the node before, after, or across both. */
function direction(nodes: readonly Pair[], k: number, way: -1 | 0 | 1): Pair | null {
  const a = nodes[way === 1 ? k : k - 1]!;
  const b = nodes[way === -1 ? k : k + 1]!;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return length === 0 ? null : [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

/** How far the outline moves in the plane of the section, for a shell that also runs fore and aft. */
function within(outward: Pair, along: Pair, shellM: number): number {
  return shellM * Math.hypot(1, outward[0] * along[0] + outward[1] * along[1]);
}

function moved(node: Pair, towards: Pair, along: Pair, shellM: number): Pair {
  const outward: Pair = [towards[1], -towards[0]];
  const by = within(outward, along, shellM);
  return [node[0] + by * outward[0], node[1] + by * outward[1]];
}

function met(node: Pair, before: Pair, after: Pair, along: Pair, shellM: number): Pair {
  const [m, n] = [
    [before[1], -before[0]],
    [after[1], -after[0]],
  ] as [Pair, Pair];
  const [p, q] = [within(m, along, shellM), within(n, along, shellM)];
  const cross = m[0] * n[1] - m[1] * n[0];
  if (Math.abs(cross) < 1e-6) return [node[0] + p * m[0], node[1] + p * m[1]];
  return [node[0] + (p * n[1] - q * m[1]) / cross, node[1] + (q * m[0] - p * n[0]) / cross];
}

function atKeel(
  node: Pair,
  after: Pair | null,
  single: (towards: Pair) => Pair,
  shellM: number,
): Pair {
  if (after === null) return [node[0], node[1] - shellM];
  if (node[0] > 0) {
    // A flat of bottom closes the outline: its plating lies below it.
    const [y] = single(after);
    return [y, node[1] - shellM];
  }
  const [y, z] = single(after);
  // Carried on along the side to the centre plane.
  return after[0] <= 0 ? [0, node[1]] : [0, z - (y * after[1]) / after[0]];
}

function atDeck(node: Pair, before: Pair, along: Pair, shellM: number): Pair {
  const [y, z] = moved(node, before, along, shellM);
  if (before[1] === 0) return [y, z];
  return [y + ((node[1] - z) * before[0]) / before[1], node[1]];
}
