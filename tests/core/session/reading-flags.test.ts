import { describe, expect, it } from 'vitest';
import { readingFlags } from '#core/session/reading-flags.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay } from './a-day.ts';

/** A stream of the inclinometers opened at 0 s; each reading's chips as warm as `temperatureC` says. */
function dayWith(temperatureC: (state: number) => number | null, openedS = -4000): SessionState {
  const day = aDay();
  return {
    ...day,
    streams: [
      {
        ...{ stream: 's/1', board: 'b1', boardIsOurs: true, port: 'p', open: true, reason: null },
        ...{ samples: 1, skipped: 0, openedS },
        parts: [
          { instrument: 'fore', part: 'iis2iclx' },
          { instrument: 'tube', part: 'ads1115' },
        ],
      },
    ],
    states: day.states.map((state) => ({
      ...state,
      reading: {
        ...state.reading!,
        instruments: state.reading!.instruments.map((one) => ({
          ...one,
          temperatureC: one.instrument === 'fore' ? temperatureC(state.state) : null,
        })),
      },
    })),
  };
}

const flagsAt = (session: SessionState, state: number) =>
  readingFlags(session, session.states[state]!.reading!, 10 * state);

it('is that an instrument on a serial line tells in coarse steps', () => {
  const day = dayWith(() => 21);
  const countedAs = (step: number | null) => ({
    ...day,
    streams: day.streams.map((stream) => ({
      ...stream,
      parts: [
        {
          ...{ instrument: 'fore', part: 'nmea-0183' },
          counted: { form: 'integer' as const, scale: 1e-9, offset: 0, unit: 'deg' as const, step },
        },
      ],
    })),
  });
  expect(flagsAt(countedAs(0.1), 1).map(({ words }) => words)).toEqual([
    'fore: one count is 0.100 degrees',
  ]);
  expect(flagsAt(countedAs(0.01), 1)).toEqual([]);
  expect(flagsAt(countedAs(null), 1)).toEqual([]);
});

describe('what is said beside a reading', () => {
  it('is nothing on a warm steady day', () => {
    const day = dayWith(() => 21);
    for (const { state } of day.states) expect(flagsAt(day, state)).toEqual([]);
  });

  it('is that a sensor is sampled for less than half an hour', () => {
    // State 1 is read from 100 to 160 s; half an hour is over when state 18 would be read.
    const flags = flagsAt(
      dayWith(() => 21, 0),
      1,
    );
    expect(flags.map(({ kind, instrument }) => [kind, instrument])).toEqual([
      ['warming-up', 'fore'],
      ['warming-up', 'tube'],
    ]);
    expect(flags[0]!.words).toBe('fore: sampled for 2 minutes, 30 minutes are asked');
  });

  it('is that its warmth moved over two kelvin since its first reading, but not two', () => {
    const day = dayWith((state) => 20 + state * 0.5);
    expect(flagsAt(day, 4)).toEqual([]);
    expect(flagsAt(day, 5).map(({ words }) => words)).toEqual([
      'fore: its own warmth moved 2.5 K since the first reading',
    ]);
  });

  it('begins anew when the sensor is put down anew', () => {
    const day = dayWith((state) => (state < 4 ? 20 : 26));
    expect(flagsAt(day, 6)).toHaveLength(1);
    const { written } = { written: { ...day.testOpened!, line: 35 } };
    const anew = {
      ...day,
      remounted: [{ instrument: 'fore', certificate: null, written, reason: 'moved' }],
    };
    expect(flagsAt(anew, 6)).toEqual([]);
  });

  it('is that one count is too coarse to be of use', () => {
    const day = dayWith(() => 21);
    const short = {
      ...day,
      mountings: day.mountings.map((one) =>
        one.instrument === 'tube' ? { ...one, spanM: 0.05 } : one,
      ),
    };
    expect(flagsAt(short, 0).map(({ kind }) => kind)).toEqual(['coarse']);
  });

  it('says nothing of what older records do not tell', () => {
    const day = aDay();
    expect(readingFlags(day, day.states[3]!.reading!, 30)).toEqual([]);
  });

  it('is that a cheap sensor is no more than a second one, at every reading', () => {
    const day = dayWith(() => 21);
    const parts = [{ instrument: 'fore', part: 'lsm6dso' }];
    const cheap = { ...day, streams: day.streams.map((one) => ({ ...one, parts })) };
    for (const { state } of cheap.states) {
      const [flag] = flagsAt(cheap, state);
      expect(flag).toMatchObject({ kind: 'second-sensor', instrument: 'fore' });
      expect(flag!.words).toMatch(/no more than a second sensor .* 0\.0057 degree a kelvin/);
    }
  });
});
