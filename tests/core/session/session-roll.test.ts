import { describe, expect, it } from 'vitest';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { rollOfSession } from '#core/session/session-roll.ts';
import { EARLIER_ROLL, ROLL_RUN } from '../../support/roll-run-body.ts';
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

  it('gives GM by C and by her own f of an earlier test, and says what her period has done', () => {
    const told = { condition: 'as inclined', draughtM: 1.9, earlier: [EARLIER_ROLL] };
    const day = rolled([5, 5.002, 4.998]);
    const session = { ...day, rollCondition: { written: written(3), told } };
    const gmFluidM = resultOfSession(session).gmFluidM;
    const { byOthers, kept, years, refused } = rollOfSession(session, gmFluidM);
    expect([refused, byOthers.map(({ by }) => by)]).toEqual([null, ['c', 'own']]);
    const { beamM, lengthM } = day.test!.particulars;
    // f = 2 C, C = 0.373 + 0.023 B/d - 0.043 L/100 (RD 543/2007 annex II 8)
    const f = 2 * (0.373 + (0.023 * beamM) / 1.9 - (0.043 * lengthM) / 100);
    expect(byOthers[0]!.gmFluidM).toBeCloseTo(((f * beamM) / 5) ** 2, 6);
    expect(byOthers[0]!.beside!.answer).toBe('no-evidence');
    // T went from 4.8 to 5 s under the same f: GM from 0.9 to 0.9 (4.8/5)^2
    expect(byOthers[1]!.gmFluidM).toBeCloseTo(0.9 * (4.8 / 5) ** 2, 3);
    expect(kept).toMatchObject({ condition: 'as inclined', runs: 3, date: expect.any(String) });
    expect(years!.words).toContain('Her roll has lengthened by 4.2 %');
    expect(years!.points).toHaveLength(2);
  });

  it('sets tests of another beam beside nothing, and says so', () => {
    const earlier = [{ ...EARLIER_ROLL, beamM: 5.4 }];
    const told = { condition: 'as inclined', draughtM: null, earlier };
    const session = { ...rolled([5]), rollCondition: { written: written(3), told } };
    const { years, refused, byTable } = rollOfSession(session, null);
    expect([years, refused!.code]).toEqual([null, 'input-contradiction']);
    expect(byTable).toHaveLength(7);
  });

  it('counts no run that a person left out, and says nothing without one', () => {
    const one = rollOfSession(rolled([5, 9], 1), null);
    expect(one.period).toMatchObject({ runs: 1, enough: false });
    expect(one).toMatchObject({ own: null, runsAsked: 3 });
    expect(one.byTable[0]!.beside).toBeNull();
    expect(rollOfSession(aDay(), null)).toMatchObject({ period: null, byTable: [], own: null });
  });
});
