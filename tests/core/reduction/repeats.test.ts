import { expect, test } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { fitLine } from '#core/reduction/line.ts';
import { groupsOf, lackOfFit } from '#core/reduction/repeats.ts';

const moments = [0, 3, 6, 3, 0, -3, -6, -3, 0];

const tested = (bend: number, seed: number) => {
  const random = createRandom(seed, 'repeats');
  const tangents = moments.map((moment) => [
    0.01 * moment + bend * moment ** 3 + random.normal(1e-4),
  ]);
  return lackOfFit(moments, fitLine({ moments, tangents }))!;
};

test('arrangements read again stand together', () => {
  expect(groupsOf(moments)).toEqual([[0, 4, 8], [1, 3], [2], [5, 7], [6]]);
  expect(groupsOf([3853.7, 3.8, -3785.8, -0.6])).toEqual([[0], [1, 3], [2]]);
});

test('a straight test lacks fit as often as chance says, a bent one always', () => {
  let named = 0;
  for (let seed = 1; seed <= 300; seed++) if (tested(0, seed).probability < 0.1) named += 1;
  // binomial standard deviation 1.7 %
  expect(Math.abs(named / 300 - 0.1)).toBeLessThan(0.055);
  for (let seed = 1; seed <= 20; seed++) expect(tested(1e-4, seed).probability).toBeLessThan(0.01);
  expect(tested(0, 1)).toMatchObject({ upperDof: 3, lowerDof: 4 });
});

test('without a repeat nothing can be said', () => {
  const once = [0, 3, 6, -3];
  const tangents = [[0], [0.03], [0.0601], [-0.03]];
  expect(lackOfFit(once, fitLine({ moments: once, tangents }))).toBeNull();
});
