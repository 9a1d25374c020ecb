import { expect, test } from 'vitest';
import { solveGm } from '#core/reduction/gm.ts';
import { withLocalExcess } from '#core/reduction/local-excess.ts';

const moments = [0, 3, 6, 3, 0, -3, -6, -3, 0];
const problem = {
  displacement: 100,
  heelingMoments: moments,
  verticalMoments: moments.map(() => 0),
  tangents: moments.map((moment, i) => [0.004 + 0.012 * moment + 1e-4 * (i % 2)]),
  metacentreMovement: 0,
};
const excess = (tangent: number) => 2 * tangent ** 3 + 5 * tangent ** 5;

test('opened about its own heels it gives what the whole gives, with few questions', () => {
  let asked = 0;
  const counted = (tangent: number) => {
    asked += 1;
    return excess(tangent);
  };
  const local = withLocalExcess(problem, counted);
  expect(asked).toBeLessThan(150);
  const before = asked;
  expect(solveGm(local).gm).toBeCloseTo(solveGm({ ...problem, excess }).gm, 10);
  expect(asked).toBe(before);
});

test('a bend no repetition settles is a fault', () => {
  let turn = 1;
  const restless = () => {
    turn = -turn;
    return turn * 0.002;
  };
  expect(() => withLocalExcess(problem, restless)).toThrow(/no-convergence|line-not-determined/);
});
