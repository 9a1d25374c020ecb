import { expect, test } from 'vitest';
import { waterLevels } from '#core/flotation/water-level.ts';
import { fitWaterSurface, type WaterSurface } from '#core/flotation/water-surface.ts';
import { checkWaterSurface, comparePoints } from '#core/flotation/water-surface-check.ts';
import { createRandom } from '#core/numerics/random.ts';
import { freeboardsOf, LENGTH_M, levelsOf, marksOf } from '#tests/core/flotation/a-float.ts';

const LEVEL: WaterSurface = { middleM: 1.41, trimSlope: 0.004, heelSlope: 0.002, sagM: 0 };
const codes = (surface: WaterSurface, error?: (k: number) => number) =>
  checkWaterSurface(fitWaterSurface(levelsOf(surface, error), LENGTH_M, 0.005)).map(
    (one) => one.code,
  );

test('a good float is left in peace', () => {
  expect(codes(LEVEL)).toEqual([]);
});

test('a point 40 mm off is named among readings of 5 mm, and which way', () => {
  for (let seed = 1; seed <= 20; seed++) {
    const random = createRandom(seed, 'off');
    const errors = Array.from({ length: 10 }, () => random.normal(0.004));
    errors[seed % 10]! += 0.06;
    const fit = fitWaterSurface(
      levelsOf(LEVEL, (k) => errors[k]!),
      LENGTH_M,
      0.005,
    );
    const [worst] = comparePoints(fit).sort((left, right) => left.probability - right.probability);
    expect(worst!.point).toBe(fit.levels[seed % 10]!.point);
    // a freeboard read too large puts the water too low
    expect(worst!.offM).toBeLessThan(-0.03);
  }
});

test('good readings are named no more often than set', () => {
  let named = 0;
  for (let seed = 1; seed <= 400; seed++) {
    const random = createRandom(seed, 'good');
    const fit = fitWaterSurface(
      levelsOf(LEVEL, () => random.normal(0.005)),
      LENGTH_M,
      0.005,
    );
    if (comparePoints(fit).some((one) => one.bad)) named += 1;
  }
  // set to 5 %, binomial standard deviation 1.1 %
  expect(named / 400).toBeLessThan(0.09);
  expect(named / 400).toBeGreaterThan(0.01);
});

test('a list over half a degree and a trim over one per cent are said with their side', () => {
  const listed = fitWaterSurface(
    levelsOf({ ...LEVEL, heelSlope: -0.01, trimSlope: -0.02 }),
    LENGTH_M,
    0.005,
  );
  expect(checkWaterSurface(listed)).toMatchObject([
    { code: 'list-large', where: 'port', limit: 0.5 },
    { code: 'trim-large', where: 'by the bow', limit: 0.16 },
  ]);
});

test('four freeboards a side are too few, unless all marks were read', () => {
  const four = freeboardsOf(LEVEL).filter((one) => !one.point.endsWith('3'));
  const advice = (marks: ReturnType<typeof marksOf>) =>
    checkWaterSurface(fitWaterSurface(waterLevels(four, marks), LENGTH_M, 0.005)).map(
      (one) => one.code,
    );
  expect(advice([])).toEqual(['freeboards-few', 'freeboards-few']);
  expect(advice(marksOf(LEVEL))).toEqual([]);
});

test('freeboards all read aft leave a gap', () => {
  const aft = freeboardsOf(LEVEL).map((one) => ({ ...one, xM: one.xM / 3 }));
  const fit = fitWaterSurface(waterLevels(aft, []), LENGTH_M, 0.05);
  expect(checkWaterSurface(fit).map((one) => one.code)).toContain('freeboards-spread');
});

test('marks cut 30 mm too high are set against the freeboards', () => {
  const levels = waterLevels(
    freeboardsOf(LEVEL),
    marksOf(LEVEL, () => 0.03),
  );
  const advice = checkWaterSurface(fitWaterSurface(levels, LENGTH_M, 0.05));
  const marks = advice.find((one) => one.code === 'marks-against-freeboards');
  expect(marks!.found).toBeCloseTo(0.03, 6);
});
