import { describe, expect, it } from 'vitest';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { rollOfSession } from '#core/session/session-roll.ts';
import { ROLL_RUN } from '../../support/roll-run-body.ts';
import { aDay, DAY_GM } from './a-day.ts';

const written = (line: number) => {
  return { line, wall: '2026-05-02T10:00:00Z', receiverS: line, author: 'E', role: 'architect' };
};

function rolled(periods: readonly number[], refusedLine?: number): SessionState {
  const rollRuns: SessionState['rollRuns'] = periods.map((value, k) => ({
    written: written(k),
    rolled: {
      ...ROLL_RUN,
      run: { ...ROLL_RUN.run, periodS: { ...ROLL_RUN.run.periodS, value } },
    },
    refused: k === refusedLine ? { written: written(99), reason: 'people ran' } : null,
  }));
  return { ...aDay(), rollRuns };
}

describe('the roll test of a day', () => {
  it('gives period, GM by every row of the table, and her own coefficient', () => {
    const session = rolled([5, 5.002, 4.998]);
    const roll = rollOfSession(session, resultOfSession(session).gmFluidM);
    expect(roll.period).toMatchObject({ runs: 3, enough: true });
    expect(roll.period!.periodS.value).toBeCloseTo(5, 9);
    expect(roll.byTable).toHaveLength(7);
    // B is 5 m, so GM is f^2
    expect(roll.byTable[0]!.gm.gmFluidM).toBeCloseTo(0.88 ** 2, 9);
    expect(roll.own!.value).toBeCloseTo(Math.sqrt(DAY_GM), 6);
    expect(JSON.parse(JSON.stringify(roll))).toEqual(roll);
    const answers = new Set(roll.byTable.map(({ beside }) => beside!.answer));
    expect(answers).not.toContain('agrees');
  });

  it('counts no run that a person left out, and says nothing without one', () => {
    const one = rollOfSession(rolled([5, 9], 1), null);
    expect(one.period).toMatchObject({ runs: 1, enough: false });
    expect(one).toMatchObject({ own: null, runsAsked: 3 });
    expect(one.byTable[0]!.beside).toBeNull();
    expect(rollOfSession(aDay(), null)).toMatchObject({ period: null, byTable: [], own: null });
  });
});
