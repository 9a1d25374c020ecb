import { describe, expect, it } from 'vitest';
import { joinedEstimate } from '#core/steadiness/joined.ts';

const part = (
  instrument: string,
  heelDeg: number,
  standardErrorDeg: number,
  ownVariance: number,
) => ({
  instrument,
  ownVariance,
  estimate: { heelDeg, standardErrorDeg, degreesOfFreedom: 9, halfWidth95Deg: 1 },
});

describe('instruments joined', () => {
  it('share the roll: two of them are no better than one, but for their own noise', () => {
    const roll = joinedEstimate([part('a', 1, 0.005, 0), part('b', 1.2, 0.005, 0)], new Map())!;
    expect(roll.heelDeg).toBeCloseTo(1.1, 12);
    expect(roll.standardErrorDeg).toBeCloseTo(0.005, 12);
    expect(roll.degreesOfFreedom).toBe(9);
    // Student's t, 9 degrees of freedom, 97.5 %: 2.262 (any table)
    expect(roll.halfWidth95Deg).toBeCloseTo(2.262 * 0.005, 5);
    const noise = joinedEstimate(
      [part('a', 1, 0.004, 16e-6), part('b', 1, 0.004, 16e-6)],
      new Map(),
    );
    expect(noise!.standardErrorDeg).toBeCloseTo(0.004 / Math.SQRT2, 12);
  });

  it('stay where they are when one goes, once their zeros are known', () => {
    const zeros = new Map([
      ['a', -0.1],
      ['b', 0.1],
    ]);
    const both = joinedEstimate([part('a', 1, 0.005, 0), part('b', 1.2, 0.005, 0)], zeros)!;
    const one = joinedEstimate([part('a', 1, 0.005, 0)], zeros)!;
    expect(one.heelDeg).toBeCloseTo(both.heelDeg, 12);
    expect(joinedEstimate([], zeros)).toBeNull();
  });
});
