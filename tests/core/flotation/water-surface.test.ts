import fc from 'fast-check';
import { expect, test } from 'vitest';
import { waterLevels } from '#core/flotation/water-level.ts';
import {
  fitWaterSurface,
  WATER_SURFACE_PARTS,
  waterHeightM,
} from '#core/flotation/water-surface.ts';
import { createRandom } from '#core/numerics/random.ts';
import { freeboardsOf, LENGTH_M, levelsOf, marksOf } from '#tests/core/flotation/a-float.ts';

const TRUTH = { middleM: 1.41, trimSlope: 0.018, heelSlope: 0.012, sagM: -0.02 };

test('law: exact plumb freeboards give their own waterline back, hog, list and trim', () => {
  const part = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
  fc.assert(
    fc.property(part(0.4), part(0.05), part(0.05), part(0.05), (middle, trim, heel, sagM) => {
      const surface = { middleM: 1.4 + middle, trimSlope: trim, heelSlope: heel, sagM };
      const fit = fitWaterSurface(levelsOf(surface), LENGTH_M, 0.005);
      for (const name of WATER_SURFACE_PARTS) {
        expect(Math.abs(fit.surface[name] - surface[name])).toBeLessThan(1e-9);
      }
    }),
  );
});

test('marks alone, freeboards alone and both together tell the same waterline', () => {
  for (const levels of [
    levelsOf(TRUTH),
    waterLevels([], marksOf(TRUTH)),
    waterLevels(freeboardsOf(TRUTH), marksOf(TRUTH)),
  ]) {
    const { surface } = fitWaterSurface(levels, LENGTH_M, 0.005);
    expect(waterHeightM(surface, LENGTH_M, 3, 1)).toBeCloseTo(
      waterHeightM(TRUTH, LENGTH_M, 3, 1),
      9,
    );
  }
});

test('the stated reading of 5 mm gives the spread it says', () => {
  const random = createRandom(3, 'freeboards');
  const runs = 400;
  const sums = WATER_SURFACE_PARTS.map(() => 0);
  let fit = fitWaterSurface(levelsOf(TRUTH), LENGTH_M, 0.005);
  const stated = fit.covariance.map((row, k) => Math.sqrt(row[k]!));
  for (let run = 0; run < runs; run++) {
    fit = fitWaterSurface(
      levelsOf(TRUTH, () => random.normal(0.005)),
      LENGTH_M,
      0.005,
    );
    WATER_SURFACE_PARTS.forEach((name, k) => {
      sums[k]! += (fit.surface[name] - TRUTH[name]) ** 2;
    });
  }
  // the standard deviation of 400 draws is good to 3.5 %
  sums.forEach((sum, k) => {
    expect(Math.abs(Math.sqrt(sum / runs) / stated[k]! - 1)).toBeLessThan(0.12);
  });
});

test('a datum wrong for all freeboards moves the waterline whole and nothing else', () => {
  const fit = fitWaterSurface(levelsOf(TRUTH), LENGTH_M, null);
  fit.datum.freeboards.forEach((moved, k) => {
    expect(moved).toBeCloseTo(k === 0 ? 1 : 0, 9);
  });
  expect(fit.datum.marks.every((moved) => moved === 0)).toBe(true);
});

test('readings that scatter more than stated are believed more than what was stated', () => {
  const random = createRandom(5, 'rough water');
  const fit = fitWaterSurface(
    levelsOf(TRUTH, () => random.normal(0.04)),
    LENGTH_M,
    0.005,
  );
  expect(fit.scattersMoreThanStated).toBe(true);
  expect(fit.readingDeviationM).toBeGreaterThan(0.015);
  expect(fit.readingDegreesOfFreedom).toBe(6);
});

test('two points, or none left over and nothing stated, are refused', () => {
  const levels = levelsOf(TRUTH);
  expect(() => fitWaterSurface(levels.slice(0, 2), LENGTH_M, 0.005)).toThrow(/input-too-few/);
  const three = [levels[0]!, levels[4]!, levels[7]!];
  expect(() => fitWaterSurface(three, LENGTH_M, null)).toThrow(/input-too-few/);
  expect(fitWaterSurface(three, LENGTH_M, 0.005).sagFitted).toBe(false);
});
