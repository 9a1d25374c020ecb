import { expect, test } from 'vitest';
import { checkPlan } from '#core/shift/plan.ts';

const USUAL = [1.8, 3.6, 1.8, 0, -1.8, -3.6, -1.8, 0];

test('the usual eight movements, a half first: the first shift is more than a quarter', () => {
  const { states, advice } = checkPlan(USUAL, 60, 1);
  expect(states[1]!.predictedHeelDeg).toBeCloseTo((Math.atan(0.06) * 180) / Math.PI, 12);
  expect(advice).toEqual([{ code: 'first-shift-large', stop: false, share: 0.5, mostShare: 0.25 }]);
});

test('too little heel, too much, and too few movements are said side by side', () => {
  const { advice } = checkPlan([1, 7, 0, -0.5], 60, 1);
  const degrees = (tangent: number) => (Math.atan(tangent) * 180) / Math.PI;
  const [far, little, few] = advice;
  expect(far).toMatchObject({ code: 'plan-heels-far', side: 'starboard', limitDeg: 4 });
  expect(far).toHaveProperty('heelDeg', expect.closeTo(degrees(7 / 60), 12));
  expect(little).toMatchObject({ code: 'plan-heels-little', side: 'port', limitDeg: 1 });
  expect(little).toHaveProperty('heelDeg', expect.closeTo(degrees(0.5 / 60), 12));
  expect(few).toEqual({ code: 'movements-few', stop: false, planned: 4, standard: 8 });
  expect(advice).toHaveLength(3);
});

test('a guess of GM under what is safe is said', () => {
  expect(checkPlan(USUAL, 60, 0.1).advice.map((one) => one.code)).toContain('gm-guess-small');
});

test('a plan for a GM that is not above zero is refused', () => {
  expect(() => checkPlan(USUAL, 60, 0)).toThrow(/input-range/);
});
