import { expect, test } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { fitLine } from '#core/reduction/line.ts';
import { moveMisfits } from '#core/reduction/move-misfit.ts';

const DISTANCES = [2.45, 2.45, -2.45, -2.45, -2.45, -2.45, 2.45, 2.45];
const MOVES = DISTANCES.map((distance, k) => ({ state: k + 1, weight: 'A', mass: 0.5, distance }));

/** States heeled by what the moves truly were, read to so many radians. */
function misfits(truth: readonly number[], noise: number) {
  const random = createRandom(2, 'misfit');
  let real = 0;
  let written = 0;
  const moments = [0, ...DISTANCES.map((distance) => (written += 0.5 * distance))];
  const tangents = [0, ...truth.map((distance) => (real += 0.5 * distance))].map((moment) => [
    0.02 * moment + random.normal(noise),
  ]);
  return moveMisfits(MOVES, moments, fitLine({ moments, tangents }));
}

test('a weight set down 12 cm short, and carried back to its mark, acts as it was', () => {
  const truth = [...DISTANCES];
  truth[1] = 2.33;
  truth[2] = -2.33;
  const found = misfits(truth, 1e-6);
  const worst = found.reduce((a, b) =>
    Math.abs(b.actsAs - b.distance) > Math.abs(a.actsAs - a.distance) ? b : a,
  );
  expect([2, 3]).toContain(worst.state);
  expect(Math.abs(worst.actsAs)).toBeCloseTo(2.33, 1);
  // 0.02 a t·m, 0.5 t, 12 cm short: 3.0 mm too little on a pendulum of 2.5 m
  expect(2500 * Math.abs(worst.seenTangent)).toBeCloseTo(58.25, 0);
  const short = Math.abs(worst.writtenTangent) - Math.abs(worst.seenTangent);
  expect(2500 * short).toBeGreaterThan(2);
  expect(2500 * short).toBeLessThan(4);
});

test('good moves act as written, within their standard error', () => {
  const found = misfits(DISTANCES, 1e-4);
  for (const one of found) {
    expect(Math.abs(one.actsAs - one.distance)).toBeLessThan(4 * one.standardError!);
    expect(one.probability!).toBeGreaterThan(0.01);
  }
});

test('moves exactly as written are not judged by rounding', () => {
  const [first] = misfits(DISTANCES, 0);
  expect(first!.actsAs).toBeCloseTo(2.45, 9);
  expect([first!.standardError, first!.probability]).toEqual([null, null]);
});
