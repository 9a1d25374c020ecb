import { expect, it } from 'vitest';
import { handCheck } from '#core/session/hand-check.ts';
import { aDay, DAY_GM } from '#tests/core/session/a-day.ts';

it('gives the GM the day was made from, and that of the classical line where all read all', () => {
  const exact = handCheck(aDay());
  expect(exact?.gmM).toBeCloseTo(DAY_GM, 10);
  const scattered = handCheck(aDay({ stateDeg: 0.01, readingDeg: 0.005, seed: 4 }));
  expect(scattered?.gmM).toBeCloseTo(scattered!.classicalGmM, 6);
});

it('is the classical one, the metacentre’s movement left in', () => {
  const with2 = handCheck(aDay({ metacentreMovementM: 0.9 }));
  expect(with2?.gmM).toBeCloseTo(DAY_GM, 10);
});

it('is none where there is no line', () => {
  expect(handCheck(aDay({ states: 1 }))).toBeNull();
  expect(handCheck({ ...aDay(), test: null })).toBeNull();
});
