import { describe, expect, it } from 'vitest';
import { blockMeans, blocksWithRinging } from '#core/steadiness/heel-blocks.ts';
import { FIRST_PRIOR } from '#core/steadiness/roll-prior.ts';
import { likelyStarts } from '#core/steadiness/roll-starts.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

const startsOf = (record: readonly number[]) =>
  likelyStarts(blocksWithRinging(blockMeans(record, 0.1)), FIRST_PRIOR);

describe('starts of the search', () => {
  it('include the exact period and damping of a free decay', () => {
    const record = Array.from({ length: 300 }, (_, k) => {
      const t = k / 10;
      return 1.25 + 0.8 * Math.exp(-0.037699111843 * t) * Math.cos(1.256071447466 * t + 0.3);
    });
    const last = startsOf(record).at(-1)!;
    expect(Math.exp(last[0]!)).toBeCloseTo(5, 8);
    expect(Math.exp(last[1]!)).toBeCloseTo(0.03, 8);
  });

  it('include a period near that of a driven roll, gaps or not', () => {
    for (const periodS of [3, 5, 8, 12]) {
      const record = simulatedHeel({ seed: 6, lengthS: 12 * periodS, periodS, dampingRatio: 0.02 });
      for (let k = 100; k < 130; k++) record[k] = Number.NaN;
      const nearest = Math.min(
        ...startsOf(record).map((start) => Math.abs(Math.exp(start[0]!) / periodS - 1)),
      );
      expect(nearest).toBeLessThan(0.12);
    }
  });

  it('do without a decay where there is too little or none', () => {
    expect(startsOf([1, 1, 1, 1, 2, 2, 2, 2, 1, 1, 1, 1])).toHaveLength(3);
  });
});
