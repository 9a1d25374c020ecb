import { describe, expect, it } from 'vitest';
import { accuracyOutlook } from '#core/steadiness/accuracy.ts';
import { meanSpreadDeg, type RollModel } from '#core/steadiness/roll-model.ts';

const settings = { targetStandardErrorDeg: 0.006, bestAfterS: 90, worstStandardErrorDeg: 0.03 };
const calm: RollModel = {
  periodS: 5,
  dampingRatio: 0.05,
  rollDeg: 0.1,
  noiseDeg: 0.003,
  windDeg: [0.001, 0.001, 0.001],
};
const at = (countedS: number, model = calm) => ({
  standardErrorDeg: meanSpreadDeg(model, countedS),
  countedS,
  model,
});

describe('what counting on will buy', () => {
  it('tells the seconds until the target, and nothing more once there', () => {
    const outlook = accuracyOutlook(at(30), settings, false);
    if (outlook.kind !== 'reachable') throw new Error(outlook.kind);
    expect(meanSpreadDeg(calm, 30 + outlook.moreS)).toBeLessThanOrEqual(0.006);
    expect(meanSpreadDeg(calm, 30 + outlook.moreS - 3)).toBeGreaterThan(0.006);
    expect(accuracyOutlook(at(80), settings, false)).toEqual({ kind: 'reachable', moreS: 0 });
  });

  it('says that wind puts the target out of reach, and what the best will be and when', () => {
    const windy = { ...calm, windDeg: [0.005, 0.01, 0.02] as const };
    const outlook = accuracyOutlook(at(30, windy), settings, false);
    if (outlook.kind !== 'best') throw new Error(outlook.kind);
    expect(outlook.moreS).toBe(60);
    expect(outlook.bestDeg).toBeCloseTo(meanSpreadDeg(windy, 90), 6);
    expect(accuracyOutlook(at(95, windy), settings, true)).toMatchObject({
      kind: 'best',
      moreS: 0,
    });
  });

  it('never offers what is too wide', () => {
    const storm = { ...calm, windDeg: [0.05, 0.1, 0.2] as const };
    expect(accuracyOutlook(at(300, storm), settings, false).kind).toBe('too-wide');
  });

  it('does not take back its word for a little', () => {
    const edge = at(30);
    const just = { ...settings, targetStandardErrorDeg: meanSpreadDeg(calm, 85) };
    expect(accuracyOutlook(edge, just, false).kind).toBe('reachable');
    expect(accuracyOutlook(edge, just, true).kind).toBe('best');
  });
});
