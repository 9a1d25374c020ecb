import { describe, expect, it } from 'vitest';
import { narrowBandProcess, slowProcess } from '#device/emulated/quay/random-process.ts';

const STEP_S = 0.1;
const STEPS = 200_000;
const mean = (values: readonly number[]) =>
  values.reduce((sum, one) => sum + one, 0) / values.length;
const correlation = (values: readonly number[], lag: number) =>
  mean(values.slice(lag).map((one, k) => one * values[k]!));

describe('random processes of the berth', () => {
  it('a slow one has variance 1 and forgets by e in its time', () => {
    const process = slowProcess(1, 'wind', 3, STEP_S);
    const values = Array.from({ length: STEPS }, (_, step) => process.advance(step));
    // 20000 s of correlation time 3 s: about 3300 independent values.
    expect(Math.abs(correlation(values, 0) - 1)).toBeLessThan(0.1);
    expect(Math.abs(correlation(values, 30) - Math.exp(-1))).toBeLessThan(0.1);
  });

  it('a narrow-band one turns in its period', () => {
    const process = narrowBandProcess(1, 'swell', { periodS: 5, correlationS: 7 }, STEP_S);
    const values = Array.from({ length: STEPS }, (_, step) => process.advance(step));
    expect(Math.abs(correlation(values, 0) - 1)).toBeLessThan(0.1);
    expect(Math.abs(correlation(values, 25) + Math.exp(-2.5 / 7))).toBeLessThan(0.1);
    expect(Math.abs(correlation(values, 50) - Math.exp(-5 / 7))).toBeLessThan(0.1);
  });

  it('is the same for the same seed and name only', () => {
    const first = (seed: number, name: string) => slowProcess(seed, name, 3, STEP_S).advance(0);
    expect(first(4, 'a')).toBe(first(4, 'a'));
    expect(first(4, 'a')).not.toBe(first(5, 'a'));
    expect(first(4, 'a')).not.toBe(first(4, 'b'));
  });
});
