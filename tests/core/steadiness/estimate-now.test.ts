import { describe, expect, it } from 'vitest';
import { estimateNow } from '#core/steadiness/estimate-now.ts';

describe('the estimate now', () => {
  it('widens the variance and takes the interval from t: 2.776 at four degrees of freedom', () => {
    const estimate = estimateNow(
      { variance: 1, widenedVariance: 4, degreesOfFreedom: 4 },
      { heelDeg: 1.5, variance: 0.0001 },
    );
    expect(estimate).toMatchObject({ heelDeg: 1.5, degreesOfFreedom: 4 });
    expect(estimate.standardErrorDeg).toBeCloseTo(0.02, 12);
    expect(estimate.halfWidth95Deg).toBeCloseTo(2.7764 * 0.02, 5);
  });
});
