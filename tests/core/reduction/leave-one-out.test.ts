import { expect, test } from 'vitest';
import { type GmProblem, solveGm } from '#core/reduction/gm.ts';
import { leaveOneOut } from '#core/reduction/leave-one-out.ts';

const moments = [0, 3, 6, 3, 0, -3, -6, -3, 0];
const problem: GmProblem = {
  displacement: 100,
  heelingMoments: moments,
  verticalMoments: moments.map(() => 0),
  tangents: moments.map((moment, i) => {
    const tangent = 0.01 * moment + (i === 6 ? 0.002 : 1e-5 * (i % 2));
    return [tangent, tangent + 0.001 + 2e-5 * (i % 3)];
  }),
  metacentreMovement: 0,
  excess: (tangent, state) => (state >= 0 ? tangent ** 3 : Number.NaN),
};

test('the state that carries the error changes GM most, and each is the plain solution without it', () => {
  const left = leaveOneOut(problem);
  expect(left).toHaveLength(moments.length + 2);
  const most = left.reduce((a, b) => (Math.abs(b.change!) > Math.abs(a.change!) ? b : a));
  expect([most.left, most.place]).toEqual(['state', 6]);
  const but = moments.filter((_, i) => i !== 6);
  const again = solveGm({
    ...problem,
    heelingMoments: but,
    verticalMoments: but.map(() => 0),
    tangents: problem.tangents.filter((_, i) => i !== 6),
  });
  expect(most.gm!).toBeCloseTo(again.gm, 5);
});

test('where nothing is left to make a line there is no number', () => {
  const three = leaveOneOut({
    displacement: 100,
    heelingMoments: [0, 3, 6],
    verticalMoments: [0, 0, 0],
    tangents: [[0], [0.03], [0.061]],
    metacentreMovement: 0,
  });
  expect(three.every((one) => one.gm === null && one.change === null)).toBe(true);
});

test('a given list stays that of the vessel when the first state is left out', () => {
  const given = leaveOneOut({ ...problem, firstTangent: 0.02 });
  const first = given.find((one) => one.left === 'state' && one.place === 0)!;
  const last = given.find((one) => one.left === 'state' && one.place === 8)!;
  expect(Math.abs(first.change! - last.change!)).toBeLessThan(2e-4);
});
