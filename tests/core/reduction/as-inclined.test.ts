import { expect, test } from 'vitest';
import { hullAfloat } from '#core/flotation/hull-afloat.ts';
import { asInclined } from '#core/reduction/as-inclined.ts';
import { exactAnswer } from '#core/reduction/exact.ts';
import { exactHullOf, floatOfTest } from '#core/reduction/test-float.ts';
import type { TestInput } from '#core/reduction/test-input.ts';
import { problemOfTest } from '#core/reduction/test-problem.ts';
import { BOX_HULL, BOX_LENGTH_M } from '#tests/core/flotation/box-hull.ts';
import { floatedTest } from '#tests/core/reduction/a-floated-test.ts';

const hull = hullAfloat(BOX_HULL, BOX_LENGTH_M);

function found(written: TestInput) {
  const float = floatOfTest(written, hull)!;
  const { problem, causes } = problemOfTest(float.test);
  const together = float.test.together!.map((one) => ({
    ...one,
    metacentreMovement: one.metacentreMovement ?? 0,
  }));
  const exact = exactHullOf(
    written,
    hull,
    float,
    problem.heelingMoments.map(() => 0),
  )!;
  const { answer } = exactAnswer(problem, { ...causes, together }, exact.hull);
  return { ...asInclined(float.afloat, float.fit.surface, answer, answer.kg!.value), float };
}

test('she rests: the centre of gravity lies over the centre of buoyancy', () => {
  const { moments } = found(floatedTest(2, false));
  expect(moments.massT).toBeCloseTo(184.5, 6);
  expect(moments.xTM / moments.massT).toBeCloseTo(10, 9);
  expect(moments.yTM / moments.massT).toBeCloseTo(0.004, 6);
  expect(moments.zTM / moments.massT).toBeCloseTo(2, 6);
});

// What a cause is said to do against what it does when the freeboards are all moved by it.
test('a datum error moves mass, LCG and KG as its cause says, with sign', () => {
  const written = floatedTest(2, false);
  const step = 0.003;
  const before = found(written);
  const cause = before.causes.find((one) => one.cause === 'datum of the freeboards')!;
  const moved: TestInput = {
    ...written,
    waterline: {
      ...written.waterline!,
      freeboards: written.waterline!.freeboards!.map((one) => ({
        ...one,
        // the datum higher: the water higher
        heightM: one.heightM + step,
      })),
    },
  };
  const after = found(moved);
  for (const along of ['massT', 'xTM', 'zTM'] as const) {
    const change = after.moments[along] - before.moments[along];
    expect(Math.abs(change / cause[along] - 1)).toBeLessThan(0.01);
  }
  // deeper by 3 mm: more mass, KM and KG lower
  expect(cause.massT).toBeGreaterThan(0);
});

test('every row of the budget is a cause, parts of one numbered', () => {
  const { causes } = found(floatedTest(2, false));
  const names = causes.map((one) => one.cause);
  expect(new Set(names).size).toBe(names.length);
  expect(names).toContain('freeboards and draughts as read');
  expect(names).toContain('freeboards and draughts as read, part 2');
  expect(names).toContain('scale of fore');
});
