import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { LearnedLag } from '#core/steadiness/learned-lag.ts';
import { BLOCK_S } from '#core/steadiness/roll-model.ts';

const FINE_S = 0.02;

/** Block means of a rolling vessel that takes a step, and of a first-order follower with another zero. */
function followed(constantS: number, seed: number, noiseDeg: number, stepDeg = 1.4): LearnedLag {
  const chance = createRandom(seed, 'lag');
  const lag = new LearnedLag();
  let slow = 0;
  const perBlock = Math.round(BLOCK_S / FINE_S);
  for (let block = 0; block < 200; block++) {
    let promptSum = 0;
    let slowSum = 0;
    for (let k = 0; k < perBlock; k++) {
      const atS = (block * perBlock + k) * FINE_S;
      const prompt = (atS > 4 ? stepDeg : 0) + 0.05 * Math.sin((2 * Math.PI * atS) / 4.7);
      slow += (FINE_S / constantS) * (prompt - slow);
      promptSum += prompt;
      slowSum += slow;
    }
    lag.push(
      block,
      promptSum / perBlock + chance.normal(noiseDeg),
      slowSum / perBlock + 0.3 + chance.normal(noiseDeg),
    );
  }
  return lag;
}

describe('the lag of a slow instrument', () => {
  it.each([2, 5, 9])('of %d s is learned from a step, whatever its zero', (constantS) => {
    expect(followed(constantS, 1, 0).timeConstantS! / constantS).toBeCloseTo(1, 1);
    for (let seed = 0; seed < 20; seed++) {
      const found = followed(constantS, seed, 0.004).timeConstantS!;
      expect(Math.abs(found / constantS - 1)).toBeLessThan(0.15);
    }
  });

  it('is not told where the two never differed', () => {
    expect(followed(3, 2, 0.004, 0).timeConstantS).toBeNull();
    expect(new LearnedLag().timeConstantS).toBeNull();
  });

  it('makes settling longer than the mounting says, never shorter, and not without end', () => {
    expect(followed(5, 3, 0.004).settlingS(14)).toBeGreaterThan(30);
    expect(followed(5, 3, 0.004).settlingS(60)).toBe(60);
    expect(followed(9, 3, 0.004).settlingS(14)).toBe(42);
  });

  it('passes over what is missing', () => {
    const lag = new LearnedLag();
    lag.push(0, 1, 0);
    lag.push(1, Number.NaN, 0.5);
    lag.push(2, 1, 0.7);
    expect(lag.timeConstantS).toBeNull();
  });
});
