import { expect, test } from 'vitest';
import { checkPlan } from '#core/shift/plan.ts';

const USUAL = [1.8, 3.6, 1.8, 0, -1.8, -3.6, -1.8, 0];

test('the usual eight movements, a half first: the first shift is more than a quarter', () => {
  const { states, advice } = checkPlan(USUAL, 60, 1);
  expect(states[1]!.predictedHeelDeg).toBeCloseTo((Math.atan(0.06) * 180) / Math.PI, 12);
  expect(advice).toHaveLength(1);
  expect(advice[0]!.words).toContain('50 %');
  expect(advice[0]!.stop).toBe(false);
});

test('too little heel, too much, and too few movements are said side by side', () => {
  const said = checkPlan([1, 7, 0, -0.5], 60, 1).advice.map((one) => one.words);
  expect(said.some((words) => words.includes('starboard; at most 4 deg'))).toBe(true);
  expect(said.some((words) => words.includes('port; at least 1 deg'))).toBe(true);
  expect(said.some((words) => words.startsWith('movements planned: 4'))).toBe(true);
});

test('a plan for a GM that is not above zero is refused', () => {
  expect(() => checkPlan(USUAL, 60, 0)).toThrow(/input-range/);
});
