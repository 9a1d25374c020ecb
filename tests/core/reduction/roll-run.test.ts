import { describe, expect, it } from 'vitest';
import { rollRun } from '#core/reduction/roll-run.ts';
import { releasedRoll } from '../../support/free-roll.ts';

describe('a run of free roll', () => {
  it('gives period, damping and rest angle with their uncertainty', () => {
    const record = releasedRoll({
      lengthS: 40,
      noiseDeg: 0.01,
      seed: 3,
      releases: [{ atS: 0, heelDeg: 2 }],
    });
    const run = rollRun(record, 100, 4.6);
    expect(run).toMatchObject({ fromS: 100, samples: 400, refused: null });
    expect(run.toS).toBeCloseTo(139.9, 6);
    expect(run.cycles).toBeCloseTo(39.9 / 5.004, 1);
    // 5 s / sqrt(1 - 0.04^2), four stated uncertainties
    const within = (value: { value: number; standardUncertainty: number }, truth: number) =>
      expect(Math.abs(value.value - truth) / value.standardUncertainty).toBeLessThan(4);
    within(run.periodS, 5.004004806);
    within(run.dampingRatio, 0.04);
    within(run.offsetDeg, 0.3);
    expect(run.periodS.standardUncertainty).toBeLessThan(0.002);
    expect(run.froude!.shown).toBe(false);
    within(run.froude!.a, Math.PI * 0.04);
    expect(run.amplitudeFromDeg).toBeCloseTo(2, 1);
    expect(run.noiseDeg).toBeCloseTo(0.01, 2);
  });

  it("finds Froude's second coefficient where there is one, and damping at the middle amplitude", () => {
    const record = releasedRoll({
      lengthS: 60,
      noiseDeg: 0.005,
      dampingRatio: 0.02,
      quadraticPerDeg: 0.0008,
      releases: [{ atS: 0, heelDeg: 5 }],
    });
    const run = rollRun(record, 0, 5);
    expect(run.froude!.shown).toBe(true);
    expect(run.froude!.a.value).toBeCloseTo(Math.PI * 0.02, 2);
    // 4/3 of the quadratic coefficient
    expect(run.froude!.bPerDeg.value / ((4 / 3) * 0.0008)).toBeCloseTo(1, 1);
    const middleDeg = Math.sqrt(run.amplitudeFromDeg * run.amplitudeToDeg);
    expect(run.dampingRatio.value).toBeCloseTo(0.02 + ((4 / 3) * 0.0008 * middleDeg) / Math.PI, 3);
    expect(run.linear.dampingRatio.value).toBeGreaterThan(0.02);
  });
});
