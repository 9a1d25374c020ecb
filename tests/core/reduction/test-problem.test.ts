import { expect, test } from 'vitest';
import type { TestInput } from '#core/reduction/test-input.ts';
import { problemOfTest } from '#core/reduction/test-problem.ts';

const byMoves: TestInput = {
  heelwrightTest: 1,
  name: 'moves',
  displacement: { value: 60, standardUncertainty: 0.3 },
  weights: [
    { weight: 'A', mass: 0.5 },
    { weight: 'B', mass: 0.25, standardUncertainty: 0.001 },
  ],
  instruments: [
    { instrument: 'pendulum', reads: 'deflection', length: 1500 },
    { instrument: 'dial', reads: 'heel-deg' },
  ],
  states: [
    { readings: { pendulum: 3 } },
    {
      state: 'one across',
      moves: [{ weight: 'A', distance: 3.6, rise: 0.2 }],
      readings: { pendulum: 60, dial: 45 / 2 },
    },
    { moves: [{ weight: 'B', distance: -2 }], readings: { dial: 1 } },
  ],
};

test('moves add up from state to state, to the side and upward', () => {
  const { problem, weightMoments, stateNames } = problemOfTest(byMoves);
  expect(problem.heelingMoments).toEqual([0, 1.8, expect.closeTo(1.3, 12)]);
  expect(problem.verticalMoments).toEqual([0, expect.closeTo(0.1, 12), expect.closeTo(0.1, 12)]);
  expect(weightMoments[1]).toEqual({ weight: 'B', moments: [0, 0, -0.5] });
  expect(stateNames).toEqual(['0', 'one across', '2']);
});

test('readings become tangents in their own ways, what was not read stays unread', () => {
  const { tangents } = problemOfTest(byMoves).problem;
  expect(tangents[1]).toEqual([0.04, expect.closeTo(Math.SQRT2 - 1, 12)]);
  expect(tangents[0]).toEqual([0.002, null]);
});

test('an uncertainty given is carried, an angle scales as an angle', () => {
  const { causes } = problemOfTest(byMoves);
  expect(causes.weights.map((one) => one.massUncertainty)).toEqual([0, 0.001]);
  expect(causes.instruments.map((one) => one.space)).toEqual(['tangent', 'angle']);
});

test('the first state is before any move', () => {
  const states = [{ moves: [{ weight: 'A', distance: 1 }], readings: { dial: 0 } }];
  expect(() => problemOfTest({ ...byMoves, states })).toThrow(/input-contradiction.*states\[0\]/);
});
