import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { type ForcedEvidence, RUN_REFUSALS, refusalOf } from '#core/reduction/roll-forced.ts';
import { rollRun } from '#core/reduction/roll-run.ts';
import { runsOfRecord } from '#core/reduction/roll-runs.ts';
import { releasedRoll } from '../../support/free-roll.ts';

const timeS = Array.from({ length: 500 }, (_, k) => k / 10);
const noise = createRandom(5, 'forced');
const swing = (t: number, periodS: number) => Math.cos((2 * Math.PI * t) / periodS);

function refusalOfHeel(heelOf: (t: number) => number) {
  const heelDeg = timeS.map((t) => heelOf(t) + noise.normal(0.005));
  return rollRun({ timeS, heelDeg }, 0, 5).refused?.reason ?? null;
}

describe('rolling that something drives', () => {
  it('is told from free roll, and why', () => {
    expect(refusalOfHeel((t) => 2 * Math.exp(-0.05 * t) * swing(t, 5))).toBeNull();
    expect(refusalOfHeel((t) => 2 * swing(t, 5))).toBe('not-decaying');
    expect(refusalOfHeel((t) => 0.5 * Math.exp(0.03 * t) * swing(t, 5))).toBe('not-decaying');
    expect(refusalOfHeel((t) => 2 * Math.exp(-0.05 * t) * swing(t, 5) + 0.4 * swing(t, 7.3))).toBe(
      'not-one-frequency',
    );
    // a wave that lengthens while it dies away
    expect(
      refusalOfHeel((t) => 2 * Math.exp(-0.03 * t) * Math.cos(1.256 * t - 0.0012 * t * t)),
    ).not.toBeNull();
  });

  it('is refused in records of nothing but driven roll, however long', () => {
    let looked = 0;
    let taken = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const record = releasedRoll({
        lengthS: 400,
        drivenDeg: 0.3,
        noiseDeg: 0.005,
        dampingRatio: [0.02, 0.05, 0.1][seed % 3]!,
        releases: [],
        seed,
      });
      const runs = runsOfRecord(record);
      looked += runs.length;
      taken += runs.filter((run) => run.refused === null).length;
    }
    expect(looked).toBeGreaterThan(15);
    expect(taken).toBeLessThanOrEqual(1);
  });

  it('says too few cycles last, and every reason in words', () => {
    const free: ForcedEvidence = {
      lostPerCycle: 0.2,
      lostPerCycleUncertainty: 0.01,
      leftOverShare: 0.01,
      leftOverCorrelation: 0,
      otherPeriodS: 7,
      otherShare: 0.01,
      periodChange: 0.001,
      periodChangeUncertainty: 0.001,
    };
    const reasons = [
      refusalOf(free, 3),
      refusalOf({ ...free, lostPerCycle: 0.01 }, 6),
      refusalOf({ ...free, otherShare: 0.3 }, 6),
      refusalOf({ ...free, leftOverShare: 0.4 }, 6),
      refusalOf({ ...free, periodChange: -0.2 }, 6),
    ];
    expect(refusalOf(free, 5)).toBeNull();
    expect(reasons.map((one) => one?.reason).sort()).toEqual([...RUN_REFUSALS].sort());
    for (const one of reasons) expect(one!.words).toMatch(/\d/);
  });
});
