import { describe, expect, it } from 'vitest';
import { lengthsMm, pendulumAsks } from '#core/session/pendulum-asks.ts';
import type { SessionState } from '#core/session/session.ts';
import type { DayInstrument } from '#core/session/session-rows.ts';
import { aDay } from './a-day.ts';

/** Pendulums of these lengths, each read at every state as it hangs over its heel. */
function withPendulums(lengths: readonly number[]): SessionState {
  const day = aDay();
  return {
    ...day,
    states: day.states.map((state) => ({
      ...state,
      handReadings: lengths.map((lengthMm, k) => ({
        reading: {
          ...{ state: state.state, instrument: `P${k}`, kind: 'pendulum' as const, lengthMm },
          extremesMm: [lengthMm * Math.tan((state.reading!.joined.heelDeg * Math.PI) / 180)],
          reader: 'R. Vane',
        },
        written: { line: 1, wall: '', receiverS: 0, author: '', role: '' },
      })),
    })),
  };
}

const pendulums = (count: number) =>
  Array.from(
    { length: count },
    (_, k) => ({ instrument: `P${k}`, readByHand: true }) as DayInstrument,
  );

const asked = (lengths: readonly number[]) =>
  pendulumAsks(withPendulums(lengths), pendulums(lengths.length), []).map(
    ({ asks, met, found }) => [asks.split(' ')[0], met, found.split(' to ')[0]],
  );

describe('what the texts ask of pendulums', () => {
  it('is two of them at least, of different lengths, deflected 150 mm to each side', () => {
    expect(asked([2500, 3100]).map(([, met]) => met)).toEqual([true, true, true, true]);
    const [two, , alike, deflected] = asked([900, 900]);
    expect(two).toEqual(['three', true, '2 pendulums']);
    expect(alike).toEqual(['pendulums', false, '900 mm; 900 mm']);
    expect(deflected![1]).toBe(false);
  });

  it('asks nothing of the lengths of one', () => {
    expect(asked([2500]).map(([first, met]) => [first, met])).toEqual([
      ['three', false],
      ['up', true],
      ['a', true],
    ]);
  });
});

it('a pendulum that was shortened during the day is told with both lengths', () => {
  const day = withPendulums([2500]);
  const last = day.states.at(-1)!;
  const handReadings = last.handReadings.map((one) => ({
    ...one,
    reading: { ...one.reading, lengthMm: 2450 },
  }));
  const shortened = { ...day, states: day.states.with(-1, { ...last, handReadings }) };
  expect(lengthsMm(shortened, 'P0')).toEqual([2500, 2450]);
  expect(lengthsMm(shortened, 'P1')).toEqual([]);
});
