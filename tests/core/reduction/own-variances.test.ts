import { expect, test } from 'vitest';
import { uncertainHalfWidth95 } from '#core/numerics/coverage.ts';
import { createRandom } from '#core/numerics/random.ts';
import { fitLine } from '#core/reduction/line.ts';
import type { LineReadings } from '#core/reduction/line-model.ts';
import { instrumentWeights, learnedOwnVariances } from '#core/reduction/own-variances.ts';
import { HANSEN } from '#tests/core/reduction/hansen.ts';

const SLOPE = 0.03;
const MOMENTS = [0, 1, 2, 1, 0, -1, -2, -1, 0];

/** Sensors scatter by 5e-5 beside a state error of as much; the factors make some worse. */
function readingsWith(factors: readonly number[], seed: number): LineReadings {
  const random = createRandom(seed, 'own variances');
  const tangents = MOMENTS.map((moment) => {
    const shared = random.normal(5e-5);
    return factors.map((factor) => SLOPE * moment + shared + random.normal(5e-5 * factor));
  });
  return { moments: MOMENTS, tangents };
}

test('alike instruments weigh alike, Hansen’s too', () => {
  expect(learnedOwnVariances(HANSEN)).toBeUndefined();
  let unalike = 0;
  for (let seed = 1; seed <= 100; seed++) {
    if (learnedOwnVariances(readingsWith([1, 1, 1], seed)) !== undefined) unalike += 1;
  }
  expect(unalike).toBeLessThanOrEqual(2);
});

test('a pendulum eight times as coarse hardly spoils three good sensors, and the interval holds', () => {
  let inside = 0;
  let coarse = 0;
  let alone = 0;
  const days = 120;
  for (let seed = 1; seed <= days; seed++) {
    const readings = readingsWith([1, 1, 1, 8], seed);
    const ownVariances = learnedOwnVariances(readings);
    const learned = fitLine({ ...readings, ...(ownVariances && { ownVariances }) });
    const sensors = fitLine({
      moments: MOMENTS,
      tangents: readings.tangents.map((row) => row.slice(0, 3)),
    });
    if (Math.abs(learned.slope.value - SLOPE) <= uncertainHalfWidth95(learned.slope)) inside += 1;
    coarse += learned.slope.standardUncertainty ** 2;
    alone += sensors.slope.standardUncertainty ** 2;
  }
  expect(Math.sqrt(coarse / alone)).toBeLessThan(1.1);
  // binomial: 95 % of 120 is 114, standard deviation 2.4
  expect(inside).toBeGreaterThanOrEqual(107);
});

test('two instruments cannot be told apart', () => {
  expect(learnedOwnVariances(readingsWith([1, 20], 1))).toBeUndefined();
});

test('shares make one and follow one over the variance', () => {
  const readings = readingsWith([1, 1], 1);
  expect(instrumentWeights(readings)).toEqual([0.5, 0.5]);
  const weights = instrumentWeights({ ...readings, ownVariances: [1, 3] });
  expect(weights[0]).toBeCloseTo(0.75, 12);
  expect(weights[1]).toBeCloseTo(0.25, 12);
});
