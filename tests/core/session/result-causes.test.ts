import { expect, test } from 'vitest';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay } from '#tests/core/session/a-day.ts';

const day = aDay({ stateDeg: 0.002, readingDeg: 0.001 });

/** Everything from a state on heels by so much more; on one instrument or on all. */
function jumped(session: SessionState, from: number, deg: number, instrument?: string) {
  const states = session.states.map((state) => {
    const reading = state.reading!;
    if (state.state < from) return state;
    const instruments = reading.instruments.map((one) => ({
      ...one,
      heelDeg: one.heelDeg + (instrument === undefined || one.instrument === instrument ? deg : 0),
    }));
    return { ...state, reading: { ...reading, instruments } };
  });
  return { ...session, states };
}

const causes = (session: SessionState) => resultOfSession(session).diagnosis!.causes;

test('a good day names no cause', () => {
  expect(causes(day)).toEqual([]);
});

test('what moved and stayed is named by the number of the state, with what was seen while waiting for it', () => {
  const moved = jumped(day, 4, 0.15);
  const reading = moved.states[4]!.reading!;
  const disturbed = {
    ...moved,
    disturbances: [
      {
        written: moved.testOpened!,
        disturbance: {
          fromS: reading.fromS - 20,
          toS: reading.fromS - 15,
          kind: 'moved',
          instruments: null,
          evidence: 'she went over to starboard',
        },
        overruled: null,
      },
    ],
  };
  const [first] = causes(disturbed);
  expect(first).toMatchObject({ cause: 'moved', states: [4, 5, 6, 7, 8] });
  expect(first!.evidence.map(({ from }) => from)).toEqual(['plot', 'plot', 'traces']);
  expect(first!.support).toBeCloseTo(causes(moved)[0]!.support + 3, 9);
});

test('an instrument that slipped is named by its label', () => {
  expect(causes(jumped(day, 5, 0.1, 'aft'))[0]).toMatchObject({
    cause: 'slipped',
    instrument: 'aft',
    states: [5],
  });
});
