import { expect, it } from 'vitest';
import { bodyFromNodes, fairNodeLines } from '#core/hull/build-body.ts';

const triangle = (y: number): [number, number][] => [
  [0, 0],
  [y, 1],
  [0, 1],
];
const edges: [number, number, number][] = [
  [0, -1, 1],
  [1, -1, 2],
];

it('parts lines at a station given twice: a step keeps both its faces', () => {
  const x = [0, 1, 2, 2, 3, 4];
  const places = [1, 1, 1, 2, 2, 2].map(triangle);
  const { coming, leaving } = fairNodeLines(x, places);
  expect(coming[2]![1]).toEqual([0, 0]);
  expect(leaving[3]![1]).toEqual([0, 0]);
  const body = bodyFromNodes({
    name: 'step',
    sign: 1,
    xM: x,
    edges,
    corners: [0, 1],
    places,
    coming,
    leaving,
  });
  const { whole, widthM } = body.sections;
  const volume = widthM.reduce((sum, width, s) => sum + width * whole[2 * s]!, 0);
  expect(volume).toBeCloseTo(2 * 1 + 2 * 2, 12);
});

it('refuses a face that stands alone', () => {
  expect(() => fairNodeLines([0, 1, 1], [1, 1, 2].map(triangle))).toThrow('hull-offsets');
});

it('knows how far a section reaches', () => {
  const places = [1, 2].map(triangle);
  const fair = fairNodeLines([0, 1], places);
  const body = bodyFromNodes({
    name: 'b',
    sign: 1,
    xM: [0, 1],
    edges,
    corners: [0],
    places,
    ...fair,
  });
  body.sections.xM.forEach((xM, s) => {
    expect(body.sections.bounds[3 * s]).toBeCloseTo(1 + xM, 12);
    expect(body.sections.bounds[3 * s + 2]).toBeCloseTo(1, 12);
  });
});
