import { expect, it } from 'vitest';
import { withKeelLine } from '#core/hull/keel-line.ts';

const nodes = (keelM: number): [number, number][] => [
  [0, keelM],
  [2, 1],
  [2.2, 3],
];
const given = {
  xM: [0, 4, 8],
  camberM: [0, 0.1, 0.2],
  places: [nodes(0), nodes(0), nodes(0)],
};

it('puts a station where the keel line has a point, drawn below the deck', () => {
  const lines = withKeelLine(given, [{ xM: 6, zM: 0.3 }]);
  expect(lines.xM).toEqual([0, 4, 6, 8]);
  expect(lines.places[2]![0]![1]).toBeCloseTo(0.3, 12);
  expect(lines.places[2]![2]![1]).toBeCloseTo(3, 12);
  expect(lines.places[2]![1]![1]).toBeCloseTo(3 - (2 * 2.7) / 3, 12);
  expect(lines.camberM[2]).toBeCloseTo(0.15, 12);
});

it('leaves all as it is without one, and refuses a point over the deck or beyond the stations', () => {
  expect(withKeelLine(given, [])).toBe(given);
  expect(() => withKeelLine(given, [{ xM: 6, zM: 3.5 }])).toThrow('hull-offsets');
  expect(() => withKeelLine(given, [{ xM: 9, zM: 0 }])).toThrow('hull-offsets');
});
