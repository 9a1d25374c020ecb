import { expect, it } from 'vitest';
import { throughShell } from '#core/hull/shell.ts';

type Pair = readonly [number, number];
const twice = (nodes: readonly Pair[]) => ({
  xM: [0, 5],
  places: [nodes, nodes],
  corners: [0, 1, 2],
});

it('moves bottom and side out square to themselves, to meet at the chine', () => {
  const [nodes] = throughShell({
    ...twice([
      [0, 0],
      [3, 4],
      [3, 9],
    ]),
    shellM: 0.1,
  });
  // The bottom rises by 4 in 3: at the centre plane the offset line lies 0.1 / cos lower.
  expect(nodes![0]![0]).toBe(0);
  expect(nodes![0]![1]).toBeCloseTo(-0.1 / 0.6, 12);
  expect(nodes![1]![0]).toBeCloseTo(3.1, 12);
  expect(nodes![1]![1]).toBeCloseTo(-0.1 / 0.6 + (3.1 * 4) / 3, 12);
  expect(nodes![2]).toEqual([3.1, 9]);
});

it('moves a side that closes in forward by more, square to the shell', () => {
  const wedge = (y: number): Pair[] => [
    [y, 0],
    [y, 1],
    [y, 2],
  ];
  const nodes = throughShell({
    xM: [0, 4],
    places: [wedge(3), wedge(0.5)],
    corners: [0, 1, 2],
    shellM: 0.1,
  });
  expect(nodes[0]![1]![0]).toBeCloseTo(3 + 0.1 * Math.hypot(1, 2.5 / 4), 12);
});

it('leaves outlines of the outside alone', () => {
  const nodes: Pair[] = [
    [0, 0],
    [1, 0],
    [1, 1],
  ];
  expect(throughShell({ ...twice(nodes), shellM: 0 })).toEqual([nodes, nodes]);
});
