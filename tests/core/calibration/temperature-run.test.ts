import { describe, expect, it } from 'vitest';
import { fitTemperatureRun } from '#core/calibration/temperature-run.ts';
import { createRandom } from '#core/numerics/random.ts';

const TEMPERATURES = Array.from({ length: 40 }, (_, k) => 8 + k * 0.5);

describe('a temperature run', () => {
  it('finds the drift a kelvin, and no bend where there is none', () => {
    const chance = createRandom(3, 'temperature');
    const run = fitTemperatureRun(
      TEMPERATURES,
      TEMPERATURES.map((c) => 0.1 + 0.0004 * (c - 20) + chance.normal(2e-4)),
    );
    expect(run.perK2).toBe(0);
    expect(Math.abs(run.perK - 0.0004)).toBeLessThan(4 * run.perKUncertainty);
    expect([run.fromC, run.toC]).toEqual([8, 27.5]);
  });

  it('takes a bend in that is there', () => {
    const run = fitTemperatureRun(
      TEMPERATURES,
      TEMPERATURES.map((c) => 0.0004 * c + 2e-5 * (c - 17.75) ** 2),
    );
    expect(run.perK2).toBeCloseTo(2e-5, 12);
    expect(run.perK).toBeCloseTo(0.0004, 12);
  });

  it('refuses a run over too small a range', () => {
    const narrow = TEMPERATURES.slice(0, 6);
    expect(() => fitTemperatureRun(narrow, narrow)).toThrow(/input-too-few/);
    expect(() => fitTemperatureRun([1, 2], [1])).toThrow(/input-unequal-length/);
  });
});
