import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { answerOfAll, besidePendulum } from '#core/reading/as-accurate.ts';

const moments = [0, 3, 6, 3, 0, -3, -6, -3, 0];

/** Nine states: the vessel's own scatter common to both, then each instrument's. */
function pair(seed: number, sensorDeg: number, pendulumDeg: number, scale = 1) {
  const random = createRandom(seed, 'pair');
  const vessel = moments.map((moment) => 0.4 * moment + 0.1 + random.normal(0.01));
  return besidePendulum(
    vessel.map((heel) => scale * heel + random.normal(sensorDeg)),
    vessel.map((heel) => heel + 0.3 + random.normal(pendulumDeg)),
    moments,
  );
}

function share(answer: string, sensorDeg: number, pendulumDeg: number, scale = 1) {
  const rounds = 400;
  let count = 0;
  for (let seed = 1; seed <= rounds; seed++) {
    if (pair(seed, sensorDeg, pendulumDeg, scale).answer === answer) count += 1;
  }
  return count / rounds;
}

describe('at least as accurate as the pendulum', () => {
  it('is shown where the sensor is much finer, and worse where it is much coarser', () => {
    expect(share('shown', 0.001, 0.03)).toBeGreaterThan(0.8);
    expect(share('shown-worse', 0.03, 0.001)).toBeGreaterThan(0.8);
  });

  it('is shown of equals in one test of twenty at most, and worse in one of twenty', () => {
    // one-sided 95 %: 5 % of 400 is 20, standard deviation 4.4
    expect(share('shown', 0.01, 0.01)).toBeLessThan(0.05 + 3 * 0.011);
    expect(share('shown-worse', 0.01, 0.01)).toBeLessThan(0.05 + 3 * 0.011);
    expect(share('not-shown', 0.01, 0.01)).toBeGreaterThan(0.85);
  });

  it('is not shown where the slopes do not agree', () => {
    expect(share('shown', 0.001, 0.03, 1.1)).toBeLessThan(0.05);
    const told = pair(3, 0.001, 0.001, 1.02);
    expect(told.slopesAgree).toBe(false);
    expect(told.slopeDifference).toBeCloseTo(0.02, 2);
  });

  it("has Pitman's bounds, the upper at 1 where the test of equal variances just speaks", () => {
    const told = pair(7, 0.004, 0.02);
    expect(told.lower95! * told.upper95!).toBeCloseTo(told.varianceRatio! ** 2, 12);
    expect(told.states).toBe(9);
  });

  it('is not shown by too few states, one moment or readings without scatter', () => {
    expect(besidePendulum([1, 2, 3, null], [1, 2, null, 4], [0, 1, 2, 3])).toMatchObject({
      states: 2,
      varianceRatio: null,
      answer: 'not-shown',
    });
    expect(besidePendulum([1, 2, 1, 2, 1], [1, 1, 2, 2, 1], [5, 5, 5, 5, 5]).answer).toBe(
      'not-shown',
    );
    const line = [0, 1, 2, 3, 4];
    expect(besidePendulum(line, line, line).varianceRatio).toBeNull();
    expect(() => besidePendulum([1], [1, 2], [1, 2])).toThrow(/input-unequal-length/);
  });

  it('against several pendulums is shown only beside each', () => {
    expect(answerOfAll([])).toBe('not-shown');
    expect(answerOfAll(['shown', 'shown'])).toBe('shown');
    expect(answerOfAll(['shown', 'not-shown'])).toBe('not-shown');
    expect(answerOfAll(['shown', 'shown-worse'])).toBe('shown-worse');
  });
});
