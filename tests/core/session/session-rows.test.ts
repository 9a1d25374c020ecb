import { expect, test } from 'vitest';
import { dayInstruments, dayRows } from '#core/session/session-rows.ts';
import { aDay, withVoided } from '#tests/core/session/a-day.ts';

test('a row for each accepted reading, instruments in the order of their mounting', () => {
  const { rows, used } = dayRows(aDay({ states: 4 }));
  expect(used.map((one) => one.instrument)).toEqual(['fore', 'aft', 'tube']);
  expect(rows.map((row) => row.state)).toEqual([0, 1, 2, 3]);
  expect(rows[0]!.tangents[0]).toBeCloseTo(0.002, 12);
});

test('a voided reading is no row, and one of its own when put back', () => {
  const day = withVoided(aDay({ states: 4 }), 2);
  expect(dayRows(day).rows.map((row) => row.state)).toEqual([0, 1, 3]);
  expect(dayRows(day, true).rows.map((row) => row.state)).toEqual([0, 1, 2, 3]);
});

test('hand readings alone make a row; several by one instrument are their mean', () => {
  const day = withVoided(aDay({ states: 3 }), 1);
  const hand = (...extremesMm: number[]) => ({
    reading: {
      state: 1,
      instrument: 'bow pendulum',
      kind: 'pendulum' as const,
      lengthMm: 2000,
      extremesMm,
      reader: 'B. Lund',
    },
    written: day.states[0]!.readingWritten!,
  });
  const states = day.states.with(1, { ...day.states[1]!, handReadings: [hand(60), hand(64)] });
  const { rows, used, leftOut } = dayRows({ ...day, states });
  expect(leftOut).toEqual([]);
  expect(used.at(-1)).toMatchObject({ instrument: 'bow pendulum', readByHand: true });
  expect(rows[1]).toMatchObject({ state: 1, reading: null, readingLine: null });
  expect(rows[1]!.tangents).toEqual([null, null, null, expect.closeTo(0.031, 12)]);
});

test('a hand reading that gives no heel is left out and named, and stops nothing', () => {
  const day = aDay({ states: 3 });
  const reading = {
    state: 1,
    instrument: 'bow pendulum',
    kind: 'pendulum' as const,
    lengthMm: 2000,
    extremesMm: [58, 62],
    reader: 'B. Lund',
  };
  const handReadings = [{ reading, written: day.states[0]!.readingWritten! }];
  const states = day.states.with(1, { ...day.states[1]!, handReadings });
  const { used, leftOut } = dayRows({ ...day, states });
  expect(used).toHaveLength(3);
  expect(leftOut[0]).toMatchObject({
    state: 1,
    instrument: 'bow pendulum',
    fault: { code: 'input-too-few' },
  });
});

test('a scale too uncertain is refused and its instrument drops out', () => {
  const day = aDay({ states: 3 });
  const certificates = day.certificates.map((one) =>
    one.instrument === 'tube' ? { ...one, scaleUncertainty: 0.02 } : one,
  );
  const doubtful = { ...day, certificates };
  expect(dayInstruments(doubtful)[2]!.refused).toBe('scale uncertain by 2 %');
  expect(dayRows(doubtful).used).toHaveLength(2);
});
