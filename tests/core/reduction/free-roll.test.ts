import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freeRollStretches } from '#core/reduction/free-roll.ts';
import { releasedRoll } from '../../support/free-roll.ts';

describe('free roll found in a record', () => {
  const releases = [
    { atS: 5, heelDeg: 2 },
    { atS: 70, heelDeg: -2 },
    { atS: 135, heelDeg: 2 },
  ];

  it('finds each release by itself, from the extreme after the largest swing', () => {
    const { timeS, heelDeg } = releasedRoll({ lengthS: 200, noiseDeg: 0.005, releases });
    const found = freeRollStretches(timeS, heelDeg);
    expect(found).toHaveLength(3);
    found.forEach(({ fromS, toS, nearPeriodS }, k) => {
      // the first extreme stands half a period after she is let go
      expect(fromS - releases[k]!.atS).toBeCloseTo(2.5, 0);
      expect((toS - fromS) / 5).toBeGreaterThan(5);
      expect(nearPeriodS).toBeCloseTo(5, 0);
    });
  });

  it('leaves out the rolling that people set going before they stand still', () => {
    const timeS = Array.from({ length: 900 }, (_, k) => k / 10);
    // forced up over 30 s, then left
    const heelDeg = timeS.map((t) => {
      const amplitude = t < 30 ? t / 15 : 2 * Math.exp(-0.05 * (t - 30));
      return amplitude * Math.sin((2 * Math.PI * t) / 5);
    });
    const falling = freeRollStretches(timeS, heelDeg).find(({ fromS }) => fromS > 25)!;
    expect(falling.fromS).toBeGreaterThan(28);
    expect(falling.fromS).toBeLessThan(36);
    expect(falling.toS).toBeGreaterThan(60);
  });

  it('ends a stretch where samples are missing, and finds the same at irregular times', () => {
    const { timeS, heelDeg } = releasedRoll({ lengthS: 60, rateHz: 20, releases: [releases[0]!] });
    const without = timeS.flatMap((t, k) => (t > 20 && t < 24 ? [] : [k]));
    const cut = freeRollStretches(
      without.map((k) => timeS[k]!),
      without.map((k) => heelDeg[k]!),
    );
    expect(cut.every(({ fromS, toS }) => toS <= 20 || fromS >= 24)).toBe(true);
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 250, maxLength: 250 }),
        (steps) => {
          const places: number[] = [];
          for (let k = 0, at = 0; at < timeS.length; at += steps[k++ % steps.length]!)
            places.push(at);
          const found = freeRollStretches(
            places.map((k) => timeS[k]!),
            places.map((k) => heelDeg[k]!),
          );
          expect(found).toHaveLength(1);
          expect(found[0]!.nearPeriodS).toBeCloseTo(5, 0);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('takes a steady swing as one stretch, and stillness as none', () => {
    const timeS = Array.from({ length: 600 }, (_, k) => k / 10);
    const steady = freeRollStretches(
      timeS,
      timeS.map((t) => Math.sin(1.2 * t)),
    );
    expect(steady).toHaveLength(1);
    expect(
      freeRollStretches(
        timeS,
        timeS.map(() => 1.25),
      ),
    ).toEqual([]);
    expect(freeRollStretches([0], [1])).toEqual([]);
    expect(freeRollStretches([], [])).toEqual([]);
  });
});
