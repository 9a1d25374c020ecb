import { expect, test } from 'vitest';
import { answerOfRows, sessionMoments } from '#core/session/session-answer.ts';
import { dayRows } from '#core/session/session-rows.ts';
import { aDay, DAY_GM } from '#tests/core/session/a-day.ts';

test('moments come from the moves, and must be those recorded', () => {
  const day = aDay();
  const moments = sessionMoments(day, day.test!).map((one) => one.heelingMomentTM);
  expect(moments).toEqual(day.states.map((state) => expect.closeTo(state.heelingMomentTM, 12)));
  const states = day.states.with(4, { ...day.states[4]!, heelingMomentTM: 0.5 });
  expect(() => sessionMoments({ ...day, states }, day.test!)).toThrow(
    /input-contradiction.*state 4/,
  );
});

test('sensors scale by their certificates in sine or tangent, weights and distances join', () => {
  const day = aDay();
  const { rows, used } = dayRows(day);
  const answer = answerOfRows(day, day.test!, rows, used, 0);
  expect(answer.gm.value).toBeCloseTo(DAY_GM, 10);
  const causes = answer.budget.map((row) => row.cause);
  for (const cause of ['scale of fore', 'scale of tube', 'mass of A', 'distances moved', 'KM']) {
    expect(causes).toContain(cause);
  }
});

test('KM whose uncertainty nobody states gives no KG', () => {
  const day = aDay();
  const particulars = { ...day.test!.particulars, kmUncertaintyM: null };
  const { rows, used } = dayRows(day);
  expect(answerOfRows(day, { ...day.test!, particulars }, rows, used, 0).kg).toBeNull();
});
