import { expect, test } from 'vitest';
import { resultDiagnosis } from '#core/session/result-diagnosis.ts';
import { answerOfRows } from '#core/session/session-answer.ts';
import { dayRows } from '#core/session/session-rows.ts';
import { aDay, withVoided } from '#tests/core/session/a-day.ts';

test('a state in which she rolls stiffer stands in the diagnosis, and whether the plot points at it', () => {
  const day = aDay({ stateDeg: 0.002, readingDeg: 0.001 });
  const rolling = {
    ...day,
    states: day.states.map((state) => ({
      ...state,
      reading: {
        ...state.reading!,
        rollPeriodS: state.state === 5 ? 4.7 : 5,
        rollPeriodUncertaintyS: 0.02,
        dampingRatio: 0.05,
      },
    })),
  };
  const byRoll = (session: typeof day) => {
    const { rows, used } = dayRows(session);
    const answer = answerOfRows(session, session.test!, rows, used, 0);
    return resultDiagnosis(session, session.test!, rows, used, answer).byRoll;
  };
  expect(byRoll(rolling)).toMatchObject([
    { direction: 'stiffer', states: [5], plotPointsThere: false },
  ]);
  expect(byRoll(day)).toEqual([]);
});

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
