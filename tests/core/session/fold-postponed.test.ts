import { describe, expect, it } from 'vitest';
import type { Line } from '#core/record/line.ts';
import { foldLine } from '#core/session/fold.ts';
import { pauseRefusal } from '#core/session/fold-postponed.ts';
import { nextPlannedMoves } from '#core/session/order-of-day.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { dayInstruments } from '#core/session/session-rows.ts';
import { aDay, DAY_GM, SENSORS } from '#tests/core/session/a-day.ts';
import { readingBody } from '../../support/record-lines.ts';

const at = (n: number, kind: Line['kind'], body: unknown): Line =>
  ({
    ...{ n, kind, v: 1, prev: '0'.repeat(64), wall: '2026-05-05T08:00:00.000Z', receiverS: n },
    ...{ author: 'A. Rowan', role: 'architect', body },
  }) as Line;
const postponed = at(300, 'test-postponed', { reason: 'wind' });
const resumed = at(301, 'test-resumed', { reason: 'lines, tanks and weights as they were' });

/** Half way through the day, with the whole plan still written down. */
function halfway(): SessionState {
  const day = aDay();
  const plan = day.states.slice(1).map(({ moves }) => ({
    moves: moves.map(({ weight, to }) => ({ weight, to })),
  }));
  const states = day.states.slice(0, 5);
  const weightsAt = Object.fromEntries(
    day.test!.weights.map(({ weight, at: place }) => [weight, place]),
  );
  for (const { moves } of states) for (const { weight, to } of moves) weightsAt[weight] = to;
  return { ...day, test: { ...day.test!, plan }, states, weightsAt, awaits: 'shift' };
}

describe('a test put off to another day', () => {
  it('takes no shift and no reading until it is resumed', () => {
    const session = foldLine(halfway(), postponed);
    expect(session.awaits).toBe('nothing');
    expect(() => foldLine(session, at(302, 'reading', readingBody(4)))).toThrow(/postponed/);
    expect(pauseRefusal(session, 'test-postponed')?.report.found).toMatch(/already/);
    expect(pauseRefusal(halfway(), 'test-resumed')?.report.found).toMatch(/not postponed/);
    expect(pauseRefusal({ ...halfway(), awaits: 'landing' }, 'test-postponed')).not.toBeNull();
    const [once] = [postponed, resumed].reduce(foldLine, halfway()).pauses;
    const often = { ...halfway(), pauses: Array.from({ length: 20 }, () => once!) };
    expect(pauseRefusal(often, 'test-postponed')?.report.found).toMatch(/20 times/);
  });

  it('reads the arrangement again with zeros of its own, and goes on in the plan', () => {
    const before = halfway();
    const session = [postponed, resumed].reduce(foldLine, before);
    expect(session.awaits).toBe('reading');
    expect(session.pauses).toMatchObject([
      { postponed: { reason: 'wind' }, resumed: { written: { line: 301 } } },
    ]);
    expect(session.states).toHaveLength(6);
    expect(session.states[5]).toMatchObject({ moves: [], landedS: 301 });
    expect(session.states[5]!.heelingMomentTM).toBe(before.states[4]!.heelingMomentTM);
    const again = { ...before.states[4]!.reading!, state: 5 };
    const read = foldLine(session, at(302, 'reading', again));
    expect(read.awaits).toBe('shift');
    expect(nextPlannedMoves(read)).toMatchObject(
      before.test!.plan[4]!.moves.map(({ weight, to }) => ({ weight, to })),
    );
  });

  it('overnight half a degree may have come onto every instrument: GM does not see it', () => {
    const day = aDay();
    const cut = { ...day, states: day.states.slice(0, 5) };
    const session = [postponed, resumed].reduce(foldLine, cut);
    const offsetDeg = 0.5;
    const jumped = [day.states[4]!, ...day.states.slice(5)].map((state, k) => ({
      ...state,
      state: 5 + k,
      ...(k === 0 ? { moves: [] } : {}),
      readingWritten: { ...state.readingWritten!, line: 400 + k },
      reading: {
        ...state.reading!,
        instruments: state.reading!.instruments.map((one) => ({
          ...one,
          heelDeg: one.heelDeg + offsetDeg,
        })),
      },
    }));
    const whole = { ...session, states: [...session.states.slice(0, 5), ...jumped] };
    const result = resultOfSession(whole);
    expect(Math.abs(result.gmFluidM!.value - DAY_GM)).toBeLessThan(0.002);
    expect(dayInstruments(whole)).toHaveLength(2 * SENSORS.length);
  });
});
