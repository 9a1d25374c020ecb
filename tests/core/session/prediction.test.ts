import { expect, test } from 'vitest';
import { predictHeelOfSession } from '#core/session/prediction.ts';
import { aDay, DAY_DISPLACEMENT, DAY_GM } from '#tests/core/session/a-day.ts';

const heelAt = (momentTM: number, gm: number) =>
  (Math.atan(0.002 + momentTM / (DAY_DISPLACEMENT * gm)) * 180) / Math.PI;

test('nothing is predicted before the zero is read', () => {
  const day = aDay({ states: 1 });
  const unread = { ...day, states: [{ ...day.states[0]!, reading: null, readingWritten: null }] };
  expect(predictHeelOfSession(unread, 1.8)).toBeNull();
});

test('the first shift is predicted from the guess, with its uncertainty', () => {
  const predicted = predictHeelOfSession(aDay({ states: 1 }), 1.8)!;
  expect(predicted.from).toBe('guess');
  // the day's guess is 1.0 ± 0.25 m
  expect(predicted.heelDeg).toBeCloseTo(heelAt(1.8, 1), 10);
  const fromGuess = 0.25 * (heelAt(1.8, 1) - heelAt(0, 1));
  expect(predicted.standardErrorDeg).toBeGreaterThan(0.98 * fromGuess);
  expect(predicted.standardErrorDeg).toBeLessThan(1.02 * fromGuess);
});

test('the second shift is predicted nearly as well as heels are read', () => {
  const predicted = predictHeelOfSession(aDay({ states: 2 }), 3.6)!;
  expect(predicted.from).toBe('guess');
  expect(Math.abs(predicted.heelDeg - heelAt(3.6, DAY_GM))).toBeLessThan(0.001);
  expect(predicted.standardErrorDeg).toBeLessThan(0.015);
});

test('from three states on the line predicts', () => {
  const predicted = predictHeelOfSession(aDay({ states: 5, stateDeg: 0.01 }), -3.6)!;
  expect(predicted.from).toBe('line');
  expect(predicted.degreesOfFreedom).toBe(3);
  expect(Math.abs(predicted.heelDeg - heelAt(-3.6, DAY_GM))).toBeLessThan(
    5 * predicted.standardErrorDeg,
  );
});

test("with the metacentre's movement the prediction bends as she does", () => {
  const plain = predictHeelOfSession(aDay({ states: 5 }), -6)!;
  const bent = predictHeelOfSession(aDay({ states: 5, metacentreMovementM: 2 }), -6)!;
  // to port beyond the heels read, a positive c2 resists more than the line says
  expect(Math.abs(bent.heelDeg)).toBeLessThan(Math.abs(plain.heelDeg));
});
