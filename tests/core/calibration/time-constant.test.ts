import { describe, expect, it } from 'vitest';
import { fitTimeConstant } from '#core/calibration/time-constant.ts';
import { createRandom } from '#core/numerics/random.ts';

const TIMES = Array.from({ length: 120 }, (_, k) => k * 0.5);

describe('the time constant of a step', () => {
  it('is found without noise', () => {
    const found = fitTimeConstant(
      TIMES,
      TIMES.map((t) => 12 - 40 * Math.exp(-t / 7.3)),
    );
    expect(found.timeConstantS.value).toBeCloseTo(7.3, 6);
    expect(found.to).toBeCloseTo(12, 6);
    expect(found.from).toBeCloseTo(-28, 6);
  });

  it('states an uncertainty that four hundred noisy steps bear out', () => {
    let squares = 0;
    for (let seed = 0; seed < 400; seed++) {
      const chance = createRandom(seed, 'step');
      const found = fitTimeConstant(
        TIMES,
        TIMES.map((t) => 30 * Math.exp(-t / 5) + chance.normal(0.3)),
      );
      squares += ((found.timeConstantS.value - 5) / found.timeConstantS.standardUncertainty) ** 2;
    }
    // Mean square of 400 standard deviates: 1 with a standard deviation of 0.07.
    expect(squares / 400).toBeGreaterThan(0.75);
    expect(squares / 400).toBeLessThan(1.3);
  });

  it('refuses a step that does not stand out, one cut short, and few points', () => {
    const chance = createRandom(5, 'no step');
    expect(() =>
      fitTimeConstant(
        TIMES,
        TIMES.map(() => chance.normal(1)),
      ),
    ).toThrow(/input-range|no-convergence/);
    expect(() => fitTimeConstant([0, 1], [0, 1])).toThrow(/input-too-few/);
  });
});
