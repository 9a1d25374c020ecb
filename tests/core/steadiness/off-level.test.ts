import { describe, expect, it } from 'vitest';
import { offLevelOf } from '#core/steadiness/off-level.ts';
import { meanSpreadDeg, type RollModel } from '#core/steadiness/roll-model.ts';

const model: RollModel = {
  ...{ periodS: 4, dampingRatio: 0.05, rollDeg: 0.1, noiseDeg: 0.002 },
  windDeg: [0.001, 0.001, 0.001],
};

describe('off the heel counted before', () => {
  it('is the mean of the last two rolls against it, held against what rolling alone does', () => {
    const heelDeg = [
      ...Array.from({ length: 50 }, () => 9),
      ...Array.from({ length: 20 }, () => 1.5),
    ];
    const off = offLevelOf(model, { heelDeg: 1.2, variance: 0.0001 }, heelDeg)!;
    expect(off.offDeg).toBeCloseTo(0.3, 12);
    expect(off.mayDeg).toBeCloseTo(2.5 * Math.hypot(meanSpreadDeg(model, 8), 0.01), 12);
  });

  it('is not known with a block missing', () => {
    const heelDeg = Array.from({ length: 30 }, (_, k) => (k === 25 ? Number.NaN : 1));
    expect(offLevelOf(model, { heelDeg: 1, variance: 1 }, heelDeg)).toBeNull();
  });
});
