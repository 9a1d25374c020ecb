import { expect, test } from 'vitest';
import { forecastPlan } from '#core/reduction/plan-forecast.ts';
import { planInput } from '#core/reduction/plan-input.ts';
import { planOfTest } from '#core/session/plan-of-test.ts';
import { marramTest } from '#device/emulated/marram.ts';

test('a test as it was opened gives a plan of the agreed form, and its heels follow from its moments', () => {
  const opened = marramTest();
  const plan = planOfTest(opened);
  expect(planInput.parse(plan)).toEqual(plan);
  const { shifts } = forecastPlan(plan);
  const { displacementT, gmGuessM } = opened.particulars;
  // A goes 4.2 m to starboard.
  const tangent = (0.251 * 4.2) / (displacementT * gmGuessM);
  expect(shifts[0]?.heelDeg).toBeCloseTo((Math.atan(tangent) * 180) / Math.PI, 12);
});

test('without KM there is no KG to expect', () => {
  const opened = marramTest();
  const particulars = { ...opened.particulars, kmM: null, kmUncertaintyM: null };
  expect(forecastPlan(planOfTest({ ...opened, particulars })).kgM).toBeNull();
});
