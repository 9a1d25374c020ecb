import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { OddOneOut } from '#core/steadiness/odd-one-out.ts';

/** Two sensors of one roll, one higher up and so showing more of it. */
function fed(blocks: number) {
  const odd = new OddOneOut();
  const random = createRandom(3);
  let k = 0;
  const push = (foreBy = 0, bothBy = 0) => {
    const roll = 0.1 * Math.sin(k++ * 0.5) + bothBy;
    return odd.push([
      { instrument: 'fore', heelDeg: 0.03 + 1.1 * roll + foreBy + random.normal(0.002) },
      { instrument: 'aft', heelDeg: roll + random.normal(0.002) },
    ]);
  };
  let found = 0;
  for (let n = 0; n < blocks; n++) found += push().length;
  return { odd, push, found };
}

describe('the odd one out', () => {
  it('takes different zeros and heights for no difference, for as long as it likes', () => {
    expect(fed(500).found).toBe(0);
  });

  it('finds what one shows alone, and not what all feel', () => {
    const { push } = fed(100);
    expect(push(0, 0.5)).toEqual([]);
    const odd = fed(100).push(0.3);
    expect(odd.map(({ instrument }) => instrument).sort()).toEqual(['aft', 'fore']);
    expect(Math.abs(odd[0]!.offDeg)).toBeCloseTo(0.3, 1);
  });

  it('tells which of three it is by its being farthest off', () => {
    const odd = new OddOneOut();
    const three = (aft: number) => [
      { instrument: 'fore', heelDeg: 0 },
      { instrument: 'aft', heelDeg: aft },
      { instrument: 'mid', heelDeg: 0.01 },
    ];
    for (let k = 0; k < 40; k++) odd.push(three(0.002 * (k % 2)));
    expect(odd.push(three(0.4))[0]!.instrument).toBe('aft');
  });

  it('knows nothing at the beginning of a state', () => {
    const { odd, push } = fed(100);
    odd.beginState();
    expect(push(0.3)).toEqual([]);
  });
});
