import { describe, expect, it } from 'vitest';
import type { HandReading } from '#core/record/reading-line.ts';
import { handAsks } from '#core/session/hand-asks.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay } from './a-day.ts';

const WRITTEN = { line: 1, wall: '', receiverS: 0, author: '', role: '' };
const TANGENT = (heelDeg: number) => Math.tan((heelDeg * Math.PI) / 180);

/** The day with these read by hand at each state. */
function dayWith(
  read: (state: number, heelDeg: number) => Omit<HandReading, 'state'>[],
): SessionState {
  const day = aDay();
  return {
    ...day,
    states: day.states.map((state) => ({
      ...state,
      handReadings: read(state.state, state.reading!.joined.heelDeg).map((one) => ({
        reading: { state: state.state, ...one },
        written: WRITTEN,
      })),
    })),
  };
}
const pendulum = (lengthMm: number, heelDeg: number, reader = 'R. Vane', offMm = 0) => ({
  ...{ instrument: 'P', kind: 'pendulum' as const, lengthMm, reader },
  extremesMm: [lengthMm * TANGENT(heelDeg) + offMm],
});
const SPAN_MM = 10_000;
const tube = (heelDeg: number, sumMm: number) => {
  const differenceMm = SPAN_MM * TANGENT(heelDeg);
  const [port, starboard] = [(sumMm - differenceMm) / 2, (sumMm + differenceMm) / 2];
  return {
    ...{ instrument: 'T', kind: 'u-tube' as const, lengthMm: SPAN_MM, reader: 'R. Vane' },
    extremesMm: [starboard - port],
    portLegMm: [port],
    starboardLegMm: [starboard],
  };
};
const asked = (session: SessionState) =>
  handAsks(session).map(({ asks, met, found }) => `${met ? 'met' : 'not met'}: ${asks} | ${found}`);

describe('what is asked of instruments read by hand', () => {
  it('is nothing where nothing was read by hand', () => {
    expect(asked(dayWith(() => []))).toEqual([]);
  });

  it('is a length of three metres of a pendulum', () => {
    expect(asked(dayWith((_, heelDeg) => [pendulum(3100, heelDeg)]))).toEqual([
      expect.stringMatching(/^met: pendulums of 3 m or more.*3100 mm$/),
    ]);
    expect(asked(dayWith((_, heelDeg) => [pendulum(2500, heelDeg)]))[0]).toMatch(/^not met/);
  });

  it('is both legs, 150 mm and a constant sum of a tube', () => {
    const sound = asked(dayWith((_, heelDeg) => [tube(heelDeg, 600)]));
    expect(sound.map((one) => one.split(':')[0])).toEqual(['met', 'met', 'met']);
    const leaking = asked(dayWith((state, heelDeg) => [tube(heelDeg, 600 - 2 * state)]));
    expect(leaking[2]).toMatch(/^not met: the sum of the legs of T stays .* the tube leaks/);
    const difference = asked(
      dayWith((_, heelDeg) => {
        const { portLegMm: _port, starboardLegMm: _starboard, ...only } = tube(heelDeg, 600);
        return [only];
      }),
    );
    expect(difference).toHaveLength(2);
    expect(difference[0]).toMatch(/^not met: both legs of a tube read \| 0 of/);
  });

  it('is that two readers agree', () => {
    const two = (offMm: number) =>
      dayWith((_, heelDeg) => [pendulum(3100, heelDeg), pendulum(3100, heelDeg, 'S. Boom', offMm)]);
    expect(asked(two(0.3))[1]).toMatch(
      /^met: two readers: R. Vane and S. Boom agree on P \| 9 of 9/,
    );
    expect(asked(two(6))[1]).toMatch(/^not met: two readers: .* \| 0 of 9 states/);
  });

  it('is a mark on every sheet, once time was marked', () => {
    const marked = (mark?: number) => ({
      ...dayWith((_, heelDeg) => [
        { ...pendulum(3100, heelDeg), ...(mark === undefined ? {} : { mark }) },
      ]),
      timeMarks: [{ mark: 1, words: '', written: WRITTEN, streams: [] }],
    });
    expect(asked(marked(1))[1]).toMatch(/^met: a time mark in every instrument/);
    expect(asked(marked())[1]).toMatch(/^not met: .* none on the sheet of P$/);
  });
});
