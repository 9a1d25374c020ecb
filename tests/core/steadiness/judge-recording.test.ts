import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import type { SampleTable } from '#core/sample/sample-table.ts';
import { judgeRecording } from '#core/steadiness/judge-recording.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

/** A recording at irregular times about a rate, from a 10 Hz record by straight lines. */
function recording(heel: readonly number[], rateHz: number, startS = 0): SampleTable {
  const random = createRandom(8);
  const timeS: number[] = [];
  const values: number[] = [];
  for (let t = 0.05; t < (heel.length - 2) / 10; t += random.between(0.7, 1.3) / rateHz) {
    const k = Math.floor(t * 10);
    timeS.push(startS + t);
    values.push(heel[k]! + (t * 10 - k) * (heel[k + 1]! - heel[k]!) + random.normal(0.003));
  }
  return { timeS, columns: [{ name: 'heelDeg', values }] };
}

describe('a recording judged', () => {
  const heel = simulatedHeel({ seed: 2, lengthS: 150, rollDeg: 0.06, noiseDeg: 0 });

  it('settles, is steady, and gives the heel with its roll period, at any rate and time origin', () => {
    for (const [rateHz, startS] of [
      [20, 0],
      [50, 1.7e9],
      [100, -300],
    ] as const) {
      const judged = judgeRecording(recording(heel, rateHz, startS));
      const verdicts = judged.stretches.map(({ verdict }) => verdict);
      expect(verdicts.at(-1)).toBe('steady');
      expect(verdicts).toContain('settling');
      const last = judged.stretches.at(-1)!.heel!;
      expect(Math.abs(last.heelDeg - 1.25)).toBeLessThan(0.02);
      expect(last.rollPeriodS).toBeCloseTo(4.7, 0);
      expect(judged.notUsed).toEqual([]);
    }
  });

  it('joins its stretches without a hole', () => {
    const { stretches, fromS, toS } = judgeRecording(recording(heel, 50));
    expect(stretches[0]!.fromS).toBe(fromS);
    expect(stretches.at(-1)!.toS).toBe(toS);
    stretches.slice(1).forEach((stretch, k) => {
      expect(stretch.fromS).toBe(stretches[k]!.toS);
    });
  });

  it('counts late samples, is not moved by them, and marks a gap as silence', () => {
    const table = recording(heel, 50);
    const doubled: SampleTable = {
      timeS: table.timeS.flatMap((t, k) => (k % 100 === 50 ? [t, t] : [t])),
      columns: [
        {
          name: 'heelDeg',
          values: table.columns[0]!.values.flatMap((v, k) => (k % 100 === 50 ? [v, 99] : [v])),
        },
      ],
    };
    const judged = judgeRecording(doubled);
    expect(judged.late).toBeGreaterThan(10);
    expect(judged.stretches).toEqual(judgeRecording(table).stretches);
    const keep = table.timeS.map((t) => t < 60 || t > 70);
    const gap = judgeRecording({
      timeS: table.timeS.filter((_, k) => keep[k]),
      columns: [{ name: 'heelDeg', values: table.columns[0]!.values.filter((_, k) => keep[k]) }],
    });
    expect(gap.notUsed.map(({ kind }) => kind)).toContain('silent');
  });

  it('never calls a frozen value steady, and refuses samples too sparse to show rolling', () => {
    const timeS = Array.from({ length: 3000 }, (_, k) => k / 50);
    const frozen = judgeRecording({
      timeS,
      columns: [{ name: 'heelDeg', values: timeS.map(() => 1.25) }],
    });
    expect(frozen.stretches.map(({ verdict }) => verdict)).not.toContain('steady');
    const sparse = timeS.map((t) => t * 50);
    expect(() =>
      judgeRecording({ timeS: sparse, columns: [{ name: 'h', values: sparse.map(() => 1) }] }),
    ).toThrow(/samples-too-sparse/);
  });
});
