import { describe, expect, it } from 'vitest';
import { rollPeriodOf } from '#core/reduction/roll-period.ts';
import type { RollRun } from '#core/reduction/roll-run.ts';
import { runsOfRecord } from '#core/reduction/roll-runs.ts';
import { releasedRoll } from '../../support/free-roll.ts';

const record = (drivenDeg: number) =>
  releasedRoll({
    lengthS: 200,
    noiseDeg: 0.005,
    drivenDeg,
    releases: [
      { atS: 5, heelDeg: 2 },
      { atS: 70, heelDeg: 2 },
      { atS: 135, heelDeg: -2 },
    ],
  });

describe('roll period of a test', () => {
  it('is the mean of three runs and says whether there are enough', () => {
    for (const drivenDeg of [0, 0.04]) {
      const runs = runsOfRecord(record(drivenDeg));
      const period = rollPeriodOf(runs)!;
      expect(period).toMatchObject({ runs: 3, enough: true });
      const { value, standardUncertainty } = period.periodS;
      expect(value).toBeCloseTo(runs.reduce((sum, run) => sum + run.periodS.value, 0) / 3, 12);
      expect(Math.abs(value - 5.004004806)).toBeLessThan(4 * standardUncertainty);
      expect(rollPeriodOf(runs.slice(1))!.enough).toBe(false);
    }
  });

  it('takes the scatter of the runs where it is larger than each says of itself', () => {
    const [one] = runsOfRecord(record(0));
    const runs = [5, 5.1, 5.2].map(
      (value): RollRun => ({ ...one!, periodS: { ...one!.periodS, value } }),
    );
    const period = rollPeriodOf(runs)!;
    expect(period.runsDiffer).toBe(true);
    // standard deviation 0.1 over root three, with two degrees of freedom
    expect(period.periodS.standardUncertainty).toBeCloseTo(0.1 / Math.sqrt(3), 9);
    expect(period.periodS.degreesOfFreedom).toBe(2);
  });

  it('leaves refused runs out, and is none without a run', () => {
    const [one] = runsOfRecord(record(0));
    const refused: RollRun = { ...one!, refused: { reason: 'not-decaying', words: '' } };
    expect(rollPeriodOf([refused])).toBeNull();
    expect(rollPeriodOf([one!, refused])).toMatchObject({ runs: 1, runsDiffer: false });
  });
});
