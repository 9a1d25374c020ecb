import { describe, expect, it } from 'vitest';
import { blindSession, stateLive, statesTold } from '#core/session/blind-session.ts';
import { aDay } from './a-day.ts';

const session = aDay({ states: 3 });

describe('what somebody may know of the day who reads a pendulum by eye', () => {
  it('is all but the last state: its reading, its prediction, its number nowhere in the text', () => {
    const heelDeg = session.states[2]!.reading!.joined.heelDeg;
    const predicted = { ...session.states[2]!, predictedHeelDeg: 1.2345678 };
    const day = { ...session, states: session.states.with(2, predicted) };
    expect(JSON.stringify(day)).toContain(String(heelDeg));
    const text = JSON.stringify(blindSession(day));
    expect(text).not.toContain(String(heelDeg));
    expect(text).not.toContain('1.2345678');
    expect(blindSession(day).states.slice(0, 2)).toEqual(day.states.slice(0, 2));
    expect(blindSession(day).states[2]!.moves).toEqual(day.states[2]!.moves);
  });

  it('leaves out the readings of that state that were voided', () => {
    const last = session.states[2]!;
    const voided = [
      {
        reading: last.reading!,
        written: last.readingWritten!,
        reason: 'weight off its mark',
        voided: last.readingWritten!,
      },
    ];
    const day = {
      ...session,
      states: session.states.with(2, { ...last, reading: null, readingWritten: null, voided }),
    };
    expect(statesTold(day)).toEqual([0, 1, 2]);
    expect(statesTold(blindSession(day))).toEqual([0, 1]);
  });

  it('is told of the last state by a live picture, unless weights are under way', () => {
    expect(stateLive(session)).toBe(2);
    expect(stateLive({ ...session, awaits: 'landing' })).toBeNull();
    expect(stateLive({ ...session, states: [] })).toBeNull();
    expect(blindSession({ ...session, states: [] }).states).toEqual([]);
  });
});
