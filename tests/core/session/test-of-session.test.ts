import { expect, test } from 'vitest';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import { testInput } from '#core/reduction/test-input.ts';
import { resultOfSession } from '#core/session/result.ts';
import { testOfSession } from '#core/session/test-of-session.ts';
import { aDay, DAY_GM } from '#tests/core/session/a-day.ts';

test('a day without a hull is the same test by hand: its GM and KG are those of the day', () => {
  const day = aDay();
  const written = testOfSession(day);
  expect(testInput.safeParse(written).error).toBeUndefined();
  const byHand = reduceTest(written);
  const byDay = resultOfSession(day);
  expect(byHand.classical.gmFluid!.value).toBeCloseTo(byDay.classical!.gmFluidM.value, 12);
  expect(byHand.classical.gmFluid!.value).toBeCloseTo(DAY_GM, 10);
  expect(byHand.classical.gmFluid!.standardUncertainty).toBeCloseTo(
    byDay.classical!.gmFluidM.standardUncertainty,
    12,
  );
  expect(byHand.worth).not.toBeNull();
});

test('KM whose uncertainty nobody states gives no KG, here as on the screen', () => {
  const day = aDay();
  const particulars = { ...day.test!.particulars, kmUncertaintyM: null };
  const written = testOfSession({ ...day, test: { ...day.test!, particulars } });
  expect(written.km).toBeUndefined();
  expect(reduceTest(written).classical.kgFluid).toBeNull();
});

test('moves of a state that was not read count for the next one that was', () => {
  const day = aDay();
  const unread = { ...day.states[3]!, reading: null, readingWritten: null, handReadings: [] };
  const written = testOfSession({ ...day, states: day.states.with(3, unread) });
  expect(written.states).toHaveLength(day.states.length - 1);
  expect(reduceTest(written).classical.gmFluid!.value).toBeCloseTo(DAY_GM, 10);
});
