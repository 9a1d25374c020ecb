import { describe, expect, it } from 'vitest';
import {
  FIRST_PRIOR,
  LEAST_WIND_DEG,
  modelOf,
  priorAfter,
  priorCost,
} from '#core/steadiness/roll-prior.ts';

describe('what is known of the roll before', () => {
  it('costs least where it expects the model', () => {
    const there = priorCost(FIRST_PRIOR.mean, FIRST_PRIOR);
    for (let i = 0; i < FIRST_PRIOR.mean.length; i++) {
      const away = FIRST_PRIOR.mean.map((value, k) => (k === i ? value + 1 : value));
      expect(priorCost(away, FIRST_PRIOR)).toBeGreaterThan(there);
    }
  });

  it('keeps every model computable, and never lets the wind sleep', () => {
    const wild = modelOf([50, 50, 50, -90, -90, -90]);
    for (const value of Object.values(wild).flat()) expect(Number.isFinite(value)).toBe(true);
    expect(wild.dampingRatio).toBeLessThan(1);
    expect(wild.windDeg[1]).toBeGreaterThanOrEqual(LEAST_WIND_DEG);
    expect(wild.noiseDeg).toBeGreaterThan(0);
  });

  it('narrows with a reading, never to nothing, and is never wider than the first', () => {
    const after = priorAfter(FIRST_PRIOR.mean, [0.001, 0.001, 0.001, 0.001, 0.001, 0.001]);
    after.spread.forEach((spread, i) => {
      expect(spread).toBeLessThan(FIRST_PRIOR.spread[i]!);
      expect(spread).toBeGreaterThan(0.01);
    });
    const vague = priorAfter(FIRST_PRIOR.mean, [9, 9, 9, 9, 9, 9]);
    expect(vague.spread).toEqual(FIRST_PRIOR.spread);
  });
});
