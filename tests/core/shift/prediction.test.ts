import { expect, test } from 'vitest';
import { comparePrediction, predictFromGuess, predictFromLine } from '#core/shift/prediction.ts';

const degrees = 180 / Math.PI;
const guess = { displacementT: 60, gmM: 1, gmUncertaintyM: 0.25 };
const zero = { heelingMomentTM: 0, tangent: 0.002, standardError: 1e-4 };

test('from the guess alone: the moment over displacement and GM, a quarter uncertain', () => {
  const predicted = predictFromGuess(guess, [zero], 1.8);
  expect(Math.tan(predicted.heelDeg / degrees)).toBeCloseTo(0.002 + 0.03, 12);
  expect(predicted.standardErrorDeg / degrees).toBeCloseTo(Math.hypot(0.0075, 1.4e-4), 4);
});

test('two readings overrule the guess', () => {
  const second = { heelingMomentTM: 1.8, tangent: 0.002 + 1.8 / 54, standardError: 1e-4 };
  const predicted = predictFromGuess(guess, [zero, second], 3.6);
  expect(Math.abs(Math.tan(predicted.heelDeg / degrees) - (0.002 + 3.6 / 54))).toBeLessThan(1e-5);
});

test('from the line: scatter of a coming state and the lever beyond the middle', () => {
  const line = {
    middleMomentTM: 1,
    tangentAtMiddle: 0.02,
    slopePerTM: 0.018,
    slopeUncertaintyPerTM: 1e-4,
    states: 4,
    stateDeviation: 2e-4,
    degreesOfFreedom: 2,
  };
  const predicted = predictFromLine(line, 3);
  const tangent = 0.02 + 2 * 0.018;
  expect(Math.tan(predicted.heelDeg / degrees)).toBeCloseTo(tangent, 12);
  const error = Math.hypot(2e-4 * Math.sqrt(1.25), 2e-4) / (1 + tangent ** 2);
  expect(predicted.standardErrorDeg / degrees).toBeCloseTo(error, 10);
});

test('seen against predicted: two freedoms forgive what many do not', () => {
  const predicted = { heelDeg: 2, standardErrorDeg: 0.02, degreesOfFreedom: 2 };
  expect(comparePrediction(predicted, 2.1).words).toBe('as predicted');
  expect(comparePrediction({ ...predicted, degreesOfFreedom: 30 }, 2.1)).toMatchObject({
    words: 'not as predicted',
    ratio: expect.closeTo(5, 9),
  });
});

test('nothing read, or no uncertainty, predicts nothing', () => {
  expect(() => predictFromGuess(guess, [], 1)).toThrow(/input-too-few/);
  expect(() => predictFromGuess({ ...guess, gmUncertaintyM: 0 }, [zero], 1)).toThrow(/input-range/);
});
