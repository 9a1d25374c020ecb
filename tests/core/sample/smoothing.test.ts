import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { type SmoothedSample, Smoother } from '#core/sample/smoothing.ts';

function smooth(times: readonly number[], heel: (timeS: number, k: number) => number | null) {
  const smoother = new Smoother();
  return times.flatMap((timeS, k) => [...smoother.push(timeS, heel(timeS, k))]);
}

function irregularTimes(seed: number, rateHz: number, lengthS: number, startS = 0): number[] {
  const random = createRandom(seed);
  const times: number[] = [];
  for (let t = startS; t < startS + lengthS; t += (0.6 + 0.8 * random.uniform()) / rateHz)
    times.push(t);
  return times;
}

const values = (samples: readonly SmoothedSample[]) =>
  samples.filter((sample) => sample.value !== null) as { atS: number; value: number }[];

/** Amplitude left of a sine of this frequency, and the largest deviation from it at its own time. */
function response(frequencyHz: number, rateHz: number): { gain: number; worst: number } {
  const turn = 2 * Math.PI * frequencyHz;
  const out = values(smooth(irregularTimes(1, rateHz, 60), (t) => Math.sin(turn * t)));
  const gain = Math.sqrt((2 * out.reduce((sum, s) => sum + s.value ** 2, 0)) / out.length);
  const worst = Math.max(...out.map((s) => Math.abs(s.value - Math.sin(turn * s.atS))));
  return { gain, worst };
}

describe('smoothing to 10 Hz', () => {
  it('keeps a constant and a straight line exactly, at their own times', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 50, max: 200 }),
        (seed, rate) => {
          const out = values(
            smooth(irregularTimes(seed, rate, 4, 1000.03), (t) => 1.25 + 0.3 * (t - 1000)),
          );
          expect(out.length).toBeGreaterThan(25);
          for (const { atS, value } of out) expect(value).toBeCloseTo(1.25 + 0.3 * (atS - 1000), 9);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('passes roll without delay and stops machinery', () => {
    const roll = response(0.2, 50);
    const quickRoll = response(0.4, 50);
    const engine = response(12.5, 100);
    expect(roll.worst).toBeLessThan(0.004);
    expect(quickRoll.worst).toBeLessThan(0.01);
    // Irregular times leave a little noise of it; at regular times it is under 0.002 (low-pass test).
    expect(engine.gain).toBeLessThan(0.01);
  });

  it('never bridges a gap: null within half a second of it, whole again after', () => {
    const times = irregularTimes(3, 50, 20);
    const out = smooth(times, (t) => (t > 8 && t < 8.4 ? null : 2));
    for (const { atS, value } of out) {
      if (atS > 8.95 || (atS > 0.6 && atS < 7.45)) expect(value).toBeCloseTo(2, 12);
      if (atS > 7.6 && atS < 8.8) expect(value).toBeNull();
    }
    const grid = out.map((sample) => Math.round(sample.atS * 10));
    expect(grid.every((value, k) => k === 0 || value === grid[k - 1]! + 1)).toBe(true);
  });

  it('takes a single missing sample at 50 Hz for no gap', () => {
    const out = smooth(
      Array.from({ length: 500 }, (_, k) => k / 50),
      (_, k) => (k === 250 ? null : 1),
    );
    expect(out.filter((sample) => sample.atS > 0.5 && sample.value === null)).toEqual([]);
  });

  it('does not use late or doubled samples, and counts them', () => {
    const smoother = new Smoother();
    const clean = new Smoother();
    const dirtyOut: SmoothedSample[] = [];
    const cleanOut: SmoothedSample[] = [];
    for (let k = 0; k < 300; k++) {
      cleanOut.push(...clean.push(k / 50, k % 7));
      dirtyOut.push(...smoother.push(k / 50, k % 7));
      if (k % 10 === 9)
        dirtyOut.push(...smoother.push(k / 50, 99), ...smoother.push(k / 50 - 0.3, 99));
    }
    expect(dirtyOut).toEqual(cleanOut);
    expect(smoother.late).toBe(60);
  });

  it('jumps over a long silence instead of counting through it', () => {
    const smoother = new Smoother();
    const out: SmoothedSample[] = [];
    for (let k = 0; k < 100; k++) out.push(...smoother.push(k / 50, 1));
    for (let k = 0; k < 100; k++) out.push(...smoother.push(1e6 + k / 50, 2));
    expect(out.length).toBeLessThan(60);
    expect(values(out).at(-1)!.value).toBeCloseTo(2, 12);
    expect(
      values(out).every(({ value }) => Math.abs(value - 1) < 1e-9 || Math.abs(value - 2) < 1e-9),
    ).toBe(true);
  });

  it('refuses what is no number', () => {
    expect(() => new Smoother().push(0, Number.NaN)).toThrow(/input-not-finite/);
    expect(() => new Smoother().push(Number.POSITIVE_INFINITY, 1)).toThrow(/input-not-finite/);
  });
});
