import { describe, expect, it } from 'vitest';
import { blockMeans, blocksWithRinging } from '#core/steadiness/heel-blocks.ts';
import { Judge } from '#core/steadiness/judge.ts';
import type { RollModel } from '#core/steadiness/roll-model.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

const model: RollModel = {
  periodS: 4.7,
  dampingRatio: 0.05,
  rollDeg: 0.1,
  noiseDeg: 0.003,
  windDeg: [0.001, 0.0015, 0.002],
};

/** Largest share of an alarm over a record, and when it first was one, in blocks. */
function judged(record: readonly number[]): { most: number; first: number; kind: string } {
  const judge = new Judge(model);
  let most = 0;
  let first = Number.POSITIVE_INFINITY;
  let kind = '';
  blockMeans(record, 0.1).forEach((heel, k) => {
    const suspicion = judge.push(heel);
    most = Math.max(most, suspicion.share);
    if (suspicion.share < 1 || first < k) return;
    first = k;
    kind = suspicion.kind;
  });
  return { most, first, kind };
}

describe('judge of disturbance', () => {
  it('lets her own roll and the ringing of a weight pass', () => {
    for (let seed = 0; seed < 20; seed++) {
      expect(judged(simulatedHeel({ seed, lengthS: 300, ringingDeg: 1 })).most).toBeLessThan(1);
    }
  });

  it('finds a change of level within seconds: a gust', () => {
    for (let seed = 0; seed < 10; seed++) {
      const record = simulatedHeel({ seed, lengthS: 120 }).map((y, k) => y + (k > 800 ? 0.15 : 0));
      const { first, kind } = judged(record);
      expect(first).toBeGreaterThan(200);
      expect(first).toBeLessThan(230);
      expect(['gust', 'wake']).toContain(kind);
    }
  });

  it('finds a forcing that is not hers: a wake', () => {
    for (let seed = 0; seed < 10; seed++) {
      const record = simulatedHeel({ seed, lengthS: 120 }).map(
        (y, k) => y + (k > 800 ? 0.2 * Math.sin(2 * Math.PI * 0.4 * (k / 10)) : 0),
      );
      const { first, kind } = judged(record);
      expect(first).toBeGreaterThan(200);
      expect(first).toBeLessThan(240);
      expect(kind).toBe('wake');
    }
  });

  it('is calm again after a period like the model, not before', () => {
    const judge = new Judge(model);
    judge.learn(blocksWithRinging(blockMeans(simulatedHeel({ seed: 1, lengthS: 60 }), 0.1)));
    for (let k = 0; k < 12; k++) judge.push(1.25 + (k % 2 ? 0.5 : -0.5));
    expect(judge.calm()).toBe(false);
    judge.letRing(0.5);
    expect(judge.calm()).toBe(false);
    expect(judge.suspicion().share).toBe(0);
    const quiet = blockMeans(simulatedHeel({ seed: 2, lengthS: 20 }), 0.1);
    for (const heel of quiet) judge.push(heel);
    expect(judge.calm()).toBe(true);
  });

  it('learns nothing from a missing block', () => {
    const judge = new Judge(model);
    for (let k = 0; k < 50; k++) expect(judge.push(Number.NaN).share).toBe(0);
  });
});
