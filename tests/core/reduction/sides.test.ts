import { expect, test } from 'vitest';
import { fitLine } from '#core/reduction/line.ts';
import { compareSides } from '#core/reduction/sides.ts';
import { HANSEN } from '#tests/core/reduction/hansen.ts';

// Hansen, Naval Engineers Journal 97(4) 97-115 (1985), in Biran, Ship Hydrostatics and Stability
// (2003), example 7.1; the sides worked apart from this program.
test('Hansen: each side alone, and the zero that jumped between them', () => {
  const { stateTangents } = fitLine(HANSEN);
  const { starboard, port, zeroJump } = compareSides(HANSEN.moments, stateTangents);
  expect(1 / starboard!.slope).toBeCloseTo(212819, -1);
  expect(1 / port!.slope).toBeCloseTo(210804, -1);
  expect(1 / zeroJump!.slope).toBeCloseTo(211824, -1);
  expect((Math.atan(Math.abs(zeroJump!.jump)) * 180) / Math.PI).toBeCloseTo(0.0257, 4);
  expect(zeroJump!.test.f).toBeCloseTo(30, 0);
  expect(zeroJump!.test).toMatchObject({ upperDof: 1, lowerDof: 5 });
});

test('one side only has no jump, and points exactly on a line are not judged by their rounding', () => {
  const moments = [0, 3, 6, 3, 0];
  const tangents = moments.map((moment) => 0.01 * moment);
  const oneSided = compareSides(moments, tangents);
  expect([oneSided.port, oneSided.zeroJump]).toEqual([null, null]);
  const both = [0, 3, 6, 0, -3, -6];
  expect(
    compareSides(
      both,
      both.map((moment) => 0.01 * moment),
    ).zeroJump,
  ).toBeNull();
});
