import { expect, test } from 'vitest';
import { resultPredictions } from '#core/session/result-predictions.ts';
import { aDay } from '#tests/core/session/a-day.ts';

test('heel seen beside heel predicted, forgiving while few states stand', () => {
  const day = aDay({ states: 5 });
  const states = day.states.map((state) =>
    state.state < 2
      ? state
      : {
          ...state,
          predictedHeelDeg: state.reading!.joined.heelDeg - 0.1,
          predictedStandardErrorDeg: 0.02,
          predictedDegreesOfFreedom: state.state === 2 ? null : state.state - 2,
        },
  );
  const predictions = resultPredictions({ ...day, states });
  expect(predictions.map((one) => one.state)).toEqual([2, 3, 4]);
  expect(predictions[0]!.differenceDeg).toBeCloseTo(0.1, 12);
  expect(predictions[0]!.ratio).toBeCloseTo(5, 9);
  // by the guess, then by lines of one and two freedoms
  expect(predictions.map((one) => one.words)).toEqual([
    'not as predicted',
    'as predicted',
    'as predicted',
  ]);
});

test('the freedom is that of the line it was predicted by, whatever was voided or read since', () => {
  const day = aDay({ states: 5 });
  const predicted = {
    ...day.states[4]!,
    predictedHeelDeg: day.states[4]!.reading!.joined.heelDeg - 0.1,
    predictedStandardErrorDeg: 0.02,
    predictedDegreesOfFreedom: null,
  };
  const of = (predictedDegreesOfFreedom: number | null) =>
    resultPredictions({
      ...day,
      states: [...day.states.slice(0, 4), { ...predicted, predictedDegreesOfFreedom }],
    })[0]!;
  expect(of(1)).toMatchObject({ predictedDegreesOfFreedom: 1, words: 'as predicted' });
  expect(of(null)).toMatchObject({ predictedDegreesOfFreedom: null, words: 'not as predicted' });
});

test('a state not read, or not predicted, is not compared', () => {
  expect(resultPredictions(aDay({ states: 3 }))).toEqual([]);
});
