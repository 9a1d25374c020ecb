import { describe, expect, it } from 'vitest';
import { rollOutput } from '#core/reduction/roll-output.ts';
import { runsOfRecord } from '#core/reduction/roll-runs.ts';
import { type RolledVessel, rollTest } from '#core/reduction/roll-test.ts';
import { releasedRoll } from '../../support/free-roll.ts';

const releases = [5, 70, 135].map((atS) => ({ atS, heelDeg: 2 }));
const instrument = (name: string, noiseDeg: number, count = 3) => {
  const record = releasedRoll({ lengthS: 200, noiseDeg, releases: releases.slice(0, count) });
  return { instrument: name, samples: 2000, missing: 0, late: 0, runs: runsOfRecord(record) };
};
const bare: RolledVessel = {
  beamM: null,
  draughtM: null,
  lengthM: null,
  coefficient: null,
  inclinedGmM: null,
  displacementT: null,
  date: null,
  condition: null,
  history: null,
};

describe('a roll test', () => {
  it('uses the instrument with most runs, then the smallest uncertainty', () => {
    const answer = rollTest(
      [instrument('coarse', 0.02), instrument('fine', 0.002), instrument('short', 0.001, 2)],
      bare,
    );
    expect(answer.used).toBe('fine');
    expect(answer.period).toEqual(answer.instruments[1]!.period);
    expect(answer.gm).toEqual([]);
    expect(rollOutput.parse(JSON.parse(JSON.stringify(answer)))).toEqual(answer);
    const none = rollTest([{ ...instrument('fine', 0.002), runs: [] }], bare);
    expect(none).toMatchObject({ used: null, period: null, kept: null });
  });

  it('gives GM by table, by C, and later by her own coefficient of an earlier day', () => {
    const gm = { value: 0.64, standardUncertainty: 0.004, degreesOfFreedom: 6 };
    const vessel = { ...bare, beamM: 5, draughtM: 2, lengthM: 20, coefficient: 'deep-sea' };
    const first = rollTest([instrument('fine', 0.002)], {
      ...vessel,
      inclinedGmM: gm,
      date: '2020-05-01',
      condition: 'as inclined',
    });
    expect(first.gm.map(({ by }) => by)).toEqual(['table', 'c']);
    expect(first.gm[0]!.beside!.answer).toBe('no-evidence');
    expect(first.kept!.ownCoefficient).toBeCloseTo((5.004 * 0.8) / 5, 3);
    const later = rollTest([instrument('fine', 0.002)], {
      ...vessel,
      inclinedGmM: gm,
      history: { vessel: 'Marram', tests: [first.kept!] },
      date: '2024-05-01',
      condition: 'as inclined',
    });
    const own = later.gm.find(({ by }) => by === 'own')!;
    expect(own.gmFluidM).toBeCloseTo(0.64, 3);
    expect(own.beside!.answer).toBe('agrees');
    expect(own.source).toContain('2020-05-01: as inclined');
    expect(later.years!.points).toHaveLength(2);
    expect(rollOutput.parse(JSON.parse(JSON.stringify(later)))).toEqual(later);
  });
});
