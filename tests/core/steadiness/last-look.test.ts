import { describe, expect, it } from 'vitest';
import type { HeelEstimate } from '#core/steadiness/estimate.ts';
import { blockMeans } from '#core/steadiness/heel-blocks.ts';
import { lastLook } from '#core/steadiness/last-look.ts';
import type { RollModel } from '#core/steadiness/roll-model.ts';
import { pushedHeel } from '#core/steadiness/whitened.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

const roll = { periodS: 4.7, dampingRatio: 0.05, rollDeg: 0.06 };
const model: RollModel = { ...roll, noiseDeg: 0.002, windDeg: [0.001, 0.0015, 0.002] };

/** What is counted of an instrument: ninety seconds of her rolling, gone over by `byDeg` from 40 s on. */
function counting(byDeg: number, more: { countedS?: number; standardErrorDeg?: number } = {}) {
  const heel = blockMeans(simulatedHeel({ ...roll, seed: 3, lengthS: 90, noiseDeg: 0.004 }), 0.1);
  const push = pushedHeel(model, heel.length, 100, (s) => byDeg * Math.min(1, Math.max(0, s / 14)));
  const estimate: HeelEstimate = {
    heelDeg: 0,
    standardErrorDeg: more.standardErrorDeg ?? 0.002,
    degreesOfFreedom: 20,
    halfWidth95Deg: 0.004,
  };
  return {
    model,
    periodS: 4.7,
    countedS: more.countedS ?? 90,
    counted: () => ({ fromS: 1000, heelDeg: [...heel].map((value, k) => value + push[k]!) }),
    estimate: () => estimate,
  };
}

describe('the last look before a reading', () => {
  it('finds a heel that went over, and since when', () => {
    const found = lastLook(counting(-0.12));
    expect(found?.kind).toBe('wind');
    expect(Math.abs(found!.fromS - 1040)).toBeLessThan(10);
  });

  it('lets stand what is not there, what the error covers, and what is no reading yet', () => {
    expect(lastLook(counting(0))).toBeNull();
    expect(lastLook(counting(-0.12, { standardErrorDeg: 0.08 }))).toBeNull();
    expect(lastLook(counting(-0.12, { countedS: 15 }))).toBeNull();
  });
});
