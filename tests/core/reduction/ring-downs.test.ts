import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { type RingDown, ringDownsOf } from '#core/reduction/ring-downs.ts';

function day(
  seed: number,
  change: (state: number) => { period?: number; damping?: number } = () => ({}),
  stated = true,
): RingDown[] {
  const random = createRandom(seed, 'ring-downs');
  return Array.from({ length: 9 }, (_, state) => {
    const { period = 1, damping = 1 } = change(state);
    return {
      state,
      periodS: 5 * period + random.normal(0.03),
      periodUncertaintyS: stated ? 0.03 : null,
      dampingRatio: 0.05 * damping * Math.exp(random.normal(0.15)),
    };
  });
}

describe('ring-downs of a day', () => {
  it('pool to a period better than 1 %', () => {
    const { periodS, sharp, dampingRatio } = ringDownsOf(day(1));
    expect(Math.abs(periodS!.value - 5)).toBeLessThan(0.04);
    // 0.03 over three
    expect(periodS!.standardUncertainty).toBeCloseTo(0.01, 6);
    expect(sharp).toBe(true);
    expect(dampingRatio).toBeCloseTo(0.05, 1);
  });

  it('name a state that is stiffer, with what to look for', () => {
    for (const stated of [true, false]) {
      const [change] = ringDownsOf(
        day(2, (state) => (state === 3 ? { period: 0.94 } : {}), stated),
      ).changes;
      expect(change).toMatchObject({ matter: 'period', kind: 'one-state', states: [3] });
      expect(change!.change).toBeCloseTo(-0.06, 1);
      expect(change!.words).toMatch(/^At state 3 she rolls .* stiffer: something holds her.*line/);
    }
  });

  it('name the state from which on she is softer', () => {
    const [change] = ringDownsOf(day(3, (state) => (state >= 5 ? { period: 1.05 } : {}))).changes;
    expect(change).toMatchObject({ kind: 'from-state', states: [5, 6, 7, 8] });
    expect(change!.words).toMatch(/^From state 5 on she rolls .* softer: look for liquid/);
  });

  it('name damping that grows without the period', () => {
    const { changes } = ringDownsOf(day(4, (state) => (state >= 6 ? { damping: 2.5 } : {})));
    expect(changes).toHaveLength(1);
    expect(changes[0]).toMatchObject({ matter: 'damping', states: [6, 7, 8] });
    expect(changes[0]!.words).toMatch(/dies \d+ % faster: something rubs/);
  });

  it('name nothing on quiet days but rarely', () => {
    for (const stated of [true, false]) {
      let named = 0;
      for (let seed = 1; seed <= 300; seed++) {
        named += ringDownsOf(day(seed, undefined, stated)).changes.length;
      }
      // two matters at 1 % each would be six; most changes by chance are also too small to be named
      expect(named).toBeLessThan(14);
    }
  });

  it('say nothing of fewer than three', () => {
    expect(ringDownsOf(day(1).slice(0, 2))).toMatchObject({ periodS: null, changes: [] });
    expect(ringDownsOf([])).toMatchObject({ periodS: null, sharp: false });
    const alike = day(1, undefined, false).map((one) => ({
      ...one,
      periodS: 5,
      dampingRatio: 0.05,
    }));
    expect(ringDownsOf(alike)).toMatchObject({ sharp: false, changes: [] });
  });
});
