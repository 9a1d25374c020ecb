import { expect, test } from 'vitest';
import { steadyMean } from '#core/calibration/steady-mean.ts';

const of = { samplesPerS: 10, seconds: 5, mostSwing: 0.003 };
const still = Array.from({ length: 80 }, (_, k) => 2 + (k % 2 === 0 ? 0.001 : -0.001));

test('a bench at rest gives its mean, its noise and no drift', () => {
  const reading = steadyMean(still, of)!;
  expect(reading.mean).toBeCloseTo(2, 9);
  expect(reading.noise).toBeCloseTo(0.001 * Math.sqrt(50 / 45), 6);
  expect(reading.drift).toBeCloseTo(0, 9);
  expect(reading).toMatchObject({ seconds: 5, isSteady: true });
});

test('while it still settles it is not steady, and says by how much it moves', () => {
  const reading = steadyMean(
    still.map((one, k) => one + 0.02 * Math.exp(-(k - 30) / 20)),
    of,
  )!;
  expect(reading.isSteady).toBe(false);
  expect(reading.drift).toBeLessThan(-0.003);
  expect(reading.standardError).toBeGreaterThan(0.001);
});

test('only what came since the last hole is taken; under two seconds it is nothing', () => {
  expect(steadyMean([...still, null, ...still.slice(0, 25)], of)).toMatchObject({
    seconds: 2,
    isSteady: false,
  });
  expect(steadyMean([...still, null, ...still.slice(0, 19)], of)).toBeNull();
  expect(steadyMean([], of)).toBeNull();
});
