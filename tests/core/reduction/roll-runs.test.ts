import { describe, expect, it } from 'vitest';
import { rollPeriodOutput, rollRunOutput } from '#core/reduction/roll-output.ts';
import { rollPeriodOf } from '#core/reduction/roll-period.ts';
import { markedRun, plainPeriod, plainRun, runsOfRecord } from '#core/reduction/roll-runs.ts';
import { releasedRoll } from '../../support/free-roll.ts';

const record = releasedRoll({
  lengthS: 130,
  noiseDeg: 0.005,
  releases: [
    { atS: 5, heelDeg: 2 },
    { atS: 70, heelDeg: 2 },
  ],
});

describe('runs of a record', () => {
  it('are found, fitted and in order, and plain data of the agreed form', () => {
    const runs = runsOfRecord(record);
    expect(runs.map(({ refused }) => refused)).toEqual([null, null]);
    expect(runs[0]!.toS).toBeLessThan(runs[1]!.fromS);
    for (const run of runs) {
      expect(run.periodS.value).toBeCloseTo(5.004, 2);
      expect(rollRunOutput.parse(JSON.parse(JSON.stringify(plainRun(run))))).toEqual(plainRun(run));
    }
    const period = plainPeriod(rollPeriodOf(runs)!);
    expect(rollPeriodOutput.parse(JSON.parse(JSON.stringify(period)))).toEqual(period);
  });

  it('may be marked by a person, who sees the same', () => {
    const marked = markedRun(record, 60, 130);
    expect(marked.periodS).toEqual(runsOfRecord(record)[1]!.periodS);
    expect(() => markedRun(record, 300, 400)).toThrow(/0 samples/);
    expect(() => markedRun(record, 50, 40)).toThrow(/input-range/);
    expect(() => markedRun(record, 1, 6)).toThrow(/three cycles/);
  });
});
