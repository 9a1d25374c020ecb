import { expect, test } from 'vitest';
import { resultDiagnosis } from '#core/session/result-diagnosis.ts';
import { answerOfRows } from '#core/session/session-answer.ts';
import { dayRows } from '#core/session/session-rows.ts';
import { aDay, withVoided } from '#tests/core/session/a-day.ts';

test('shapes carry the number of the state on the day, not its place among those read', () => {
  const day = withVoided(aDay({ stateDeg: 0.002, readingDeg: 0.001 }), 1);
  const state = day.states[6]!;
  const instruments = state.reading!.instruments.map((one) => ({
    ...one,
    heelDeg: one.heelDeg + 0.2,
  }));
  const off = { ...state, reading: { ...state.reading!, instruments } };
  const wrong = { ...day, states: day.states.with(6, off) };
  const { rows, used } = dayRows(wrong);
  const answer = answerOfRows(wrong, wrong.test!, rows, used, 0);
  const { shapes, troubleSeen } = resultDiagnosis(wrong, wrong.test!, rows, used, answer);
  const shape = shapes.find((one) => one.shape === 'one state off')!;
  expect([troubleSeen, shape.states]).toEqual([true, [6]]);
  expect(shape.words).toContain('state 6 lies to starboard');
});
