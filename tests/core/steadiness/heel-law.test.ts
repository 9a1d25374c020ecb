import { describe, expect, it } from 'vitest';
import { studentTQuantile } from '#core/numerics/student-t.ts';
import { heelLawOf } from '#core/steadiness/heel-law.ts';

const half = ({ variance, degreesOfFreedom }: ReturnType<typeof heelLawOf>) =>
  studentTQuantile(0.975, degreesOfFreedom) * Math.sqrt(variance);

describe('law of a heel', () => {
  it('is the normal law when one model is left', () => {
    const law = heelLawOf(1.2, [{ weight: 3, heelDeg: 1.2, variance: 0.0004 }]);
    expect(half(law)).toBeCloseTo(1.959964 * 0.02, 6);
    expect(law.degreesOfFreedom).toBeGreaterThan(300);
  });

  it("finds the Student's t that a mixture over inverse chi-squared variances is", () => {
    // Normal with variance nu/chi2(nu) is Student's t with nu (definition); chi2(6) by 4000 shares:
    // its distribution function is 1 - e^-x/2 (1 + x/2 + (x/2)^2/2).
    const below = (x: number) => 1 - Math.exp(-x / 2) * (1 + x / 2 + (x / 2) ** 2 / 2);
    const possible = Array.from({ length: 4000 }, (_, k) => {
      let [low, high] = [0, 100];
      for (let n = 0; n < 60; n++) {
        const middle = (low + high) / 2;
        if (below(middle) < (k + 0.5) / 4000) low = middle;
        else high = middle;
      }
      return { weight: 1, heelDeg: 0, variance: 6 / low };
    });
    const law = heelLawOf(0, possible);
    expect(half(law)).toBeCloseTo(studentTQuantile(0.975, 6), 2);
    expect(law.degreesOfFreedom).toBeGreaterThan(5);
    expect(law.degreesOfFreedom).toBeLessThan(7.2);
  });

  it('is as wide as what the possible heels leave open, whatever the unit of their weights', () => {
    const two = (weight: number) => [
      { weight, heelDeg: -0.1, variance: 1e-6 },
      { weight, heelDeg: 0.1, variance: 1e-6 },
    ];
    expect(half(heelLawOf(0, two(1)))).toBeGreaterThan(0.1);
    expect(heelLawOf(0, two(1))).toEqual(heelLawOf(0, two(1e-9)));
  });
});
