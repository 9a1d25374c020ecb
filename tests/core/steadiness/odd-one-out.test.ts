import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { OddOneOut } from '#core/steadiness/odd-one-out.ts';

/** Two sensors of one roll, one aloft, where the roll's own acceleration tilts it too. */
function fed(blocks: number) {
  const odd = new OddOneOut();
  const random = createRandom(3);
  let k = 0;
  const push = (foreBy = 0, bothBy = 0) => {
    const roll = 0.1 * Math.sin(k++ * 0.5) + bothBy;
    const aloft = 0.03 * Math.sin(k * 0.5 - 0.5);
    return odd.push([
      {
        instrument: 'fore',
        heelDeg: 0.03 + roll + aloft + foreBy + random.normal(0.002),
        isSound: true,
      },
      { instrument: 'aft', heelDeg: roll + random.normal(0.002), isSound: true },
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

  it('finds what one shows alone when the next block has come, and not what all feel', () => {
    const { push } = fed(100);
    for (let k = 0; k < 20; k++)
      expect(push(0, 0.25 - 0.25 * Math.cos((Math.PI * k) / 20))).toEqual([]);
    const other = fed(100);
    other.push(0.3);
    const odd = other.push(0.3);
    expect(odd.map(({ instrument }) => instrument).sort()).toEqual(['aft', 'fore']);
    expect(Math.abs(odd[0]!.offDeg)).toBeGreaterThan(0.1);
  });

  it('tells which of three it is: the one that differs from both others', () => {
    const odd = new OddOneOut();
    const three = (aft: number) => [
      { instrument: 'fore', heelDeg: 0, isSound: true },
      { instrument: 'aft', heelDeg: aft, isSound: true },
      { instrument: 'mid', heelDeg: 0.01, isSound: true },
    ];
    for (let k = 0; k < 40; k++) odd.push(three(0.002 * (k % 2)));
    odd.push(three(0.4));
    expect(odd.push(three(0.4)).map(({ instrument }) => instrument)).toEqual(['aft']);
  });

  it('tells a slow drift by how far apart an instrument has come, in standard errors', () => {
    const { odd, push } = fed(60);
    expect(odd.apart('fore')!.errors).toBeLessThan(5);
    for (let k = 0; k < 60; k++) push(0.0004 * k);
    expect(odd.apart('fore')!.errors).toBeGreaterThan(6);
    expect(odd.apart('fore')!.offDeg).toBeGreaterThan(0.015);
    expect(odd.apart('aft')!.offDeg).toBeCloseTo(-odd.apart('fore')!.offDeg, 9);
  });

  it('knows nothing at the beginning of a state, nor across a gap', () => {
    const { odd, push } = fed(100);
    odd.interrupt();
    expect(push(0.3)).toEqual([]);
    odd.beginState();
    for (let k = 0; k < 5; k++) expect(push(0.3)).toEqual([]);
    expect(odd.apart('fore')).toBeNull();
  });
});
