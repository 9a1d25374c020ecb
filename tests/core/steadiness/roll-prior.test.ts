import { describe, expect, it } from 'vitest';
import {
  FIRST_PRIOR,
  LEAST_SLOW_DEG,
  modelOf,
  priorAfter,
  priorCost,
} from '#core/steadiness/roll-prior.ts';

describe('what is known of the roll before', () => {
  it('costs least where it expects the model, but for the tie of slow and quick wind', () => {
    const there = priorCost(FIRST_PRIOR.mean, FIRST_PRIOR);
    for (let i = 0; i < 4; i++) {
      const away = FIRST_PRIOR.mean.map((value, k) => (k === i ? value + 1 : value));
      expect(priorCost(away, FIRST_PRIOR)).toBeGreaterThan(there);
    }
    const windy = [...FIRST_PRIOR.mean.slice(0, 4), Math.log(0.05), Math.log(0.05)];
    const odd = [...FIRST_PRIOR.mean.slice(0, 4), Math.log(0.05), Math.log(0.0005)];
    expect(priorCost(odd, FIRST_PRIOR)).toBeGreaterThan(priorCost(windy, FIRST_PRIOR));
  });

  it('keeps every model computable, and never lets the wind sleep', () => {
    const wild = modelOf([50, 50, 50, -90, -90, -90]);
    for (const value of Object.values(wild)) expect(Number.isFinite(value)).toBe(true);
    expect(wild.dampingRatio).toBeLessThan(1);
    expect(wild.slowDeg).toBeGreaterThanOrEqual(LEAST_SLOW_DEG);
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
