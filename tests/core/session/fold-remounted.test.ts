import { describe, expect, it } from 'vitest';
import type { Line } from '#core/record/line.ts';
import { foldLine } from '#core/session/fold.ts';
import { remountingRefusal } from '#core/session/fold-remounted.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay, DAY_GM } from './a-day.ts';

/** Put down anew between two readings: the fifth state is read on line 40, the sixth on line 50. */
const LINE = 45;
const MOVED_DEG = 0.5;

function remounted(session: SessionState, certificate: 'same' | 'another' = 'same'): SessionState {
  const before = session.certificates.find((one) => one.instrument === 'fore')!;
  const line: Extract<Line, { kind: 'instrument-remounted' }> = {
    n: LINE,
    kind: 'instrument-remounted',
    v: 1,
    prev: '0'.repeat(64),
    wall: '2026-05-04T11:00:00.000Z',
    receiverS: 4500,
    author: 'B. Teal',
    role: 'technician',
    body: {
      instrument: 'fore',
      certificate: certificate === 'same' ? null : { ...before, number: 'C-2', zero: 0.003 },
      reason: 'the bracket came loose',
    },
  };
  return foldLine({ ...session, lines: LINE }, line);
}

/** From line 45 on Fore shows half a degree more. */
function jumped(seed: number): SessionState {
  const day = aDay({ stateDeg: 0.004, readingDeg: 0.003, seed });
  return {
    ...day,
    states: day.states.map((state) =>
      state.readingWritten!.line < LINE
        ? state
        : {
            ...state,
            reading: {
              ...state.reading!,
              instruments: state.reading!.instruments.map((one) =>
                one.instrument === 'fore' ? { ...one, heelDeg: one.heelDeg + MOVED_DEG } : one,
              ),
            },
          },
    ),
  };
}

describe('a sensor that was put down anew', () => {
  it('has an intercept of its own from then on, and GM is right', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const result = resultOfSession(remounted(jumped(seed)));
      const fore = result.instruments.filter(({ label }) => label.startsWith('fore'));
      expect(fore.map(({ readings }) => readings)).toEqual([5, 4]);
      const [first, second] = fore.map(({ interceptDeg }) => interceptDeg!.value);
      expect(second! - first!).toBeGreaterThan(MOVED_DEG - 0.03);
      expect(second! - first!).toBeLessThan(MOVED_DEG + 0.03);
      const gm = result.gmFluidM!;
      expect(Math.abs(gm.value - DAY_GM)).toBeLessThan(2 * gm.halfWidth95);
    }
  });

  it('would bend the line if nobody had said so', () => {
    const shapes = resultOfSession(jumped(3)).diagnosis!;
    expect(shapes.troubleSeen).toBe(true);
    expect(resultOfSession(remounted(jumped(3))).diagnosis!.troubleSeen).toBe(false);
  });

  it('leaves readings before it under the certificate of before', () => {
    const day = aDay({ seed: 2 });
    const plain = resultOfSession(day);
    const result = resultOfSession(remounted(day, 'another'));
    const before = plain.points[0]!.byInstrument.find((one) => one.instrument === 'fore')!;
    const now = result.points[0]!.byInstrument.find((one) => one.instrument === 'fore')!;
    expect(now.heelDeg).toBe(before.heelDeg);
    expect(
      remounted(day, 'another').certificates.find((c) => c.instrument === 'fore')!.number,
    ).toBe('C-2');
  });

  it('is refused for an unknown sensor, a foreign certificate and one that was in force', () => {
    const day = aDay();
    const own = day.certificates[0]!;
    expect(remountingRefusal(day, 'mast', null)?.code).toBe('instrument-unknown');
    expect(remountingRefusal(day, 'aft', own)?.code).toBe('certificate-unfit');
    expect(remountingRefusal(day, 'fore', own)?.code).toBe('certificate-unfit');
    const after = remounted(day, 'another');
    expect(remountingRefusal(after, 'fore', own)?.code).toBe('certificate-unfit');
    expect(remountingRefusal(after, 'fore', null)).toBeNull();
  });
});
