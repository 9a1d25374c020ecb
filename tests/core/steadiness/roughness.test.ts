import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { Roughness } from '#core/steadiness/roughness.ts';

/** Blocks of four samples of a roll of 5 s; `noiseDeg` of each block, a jump after so many. */
function shaken(noiseDeg: (block: number) => number, jumpAt = Number.POSITIVE_INFINITY): boolean[] {
  const roughness = new Roughness();
  const random = createRandom(5);
  return Array.from({ length: 120 }, (_, block) => {
    for (let n = 0; n < 4; n++) {
      const atS = (4 * block + n) / 10;
      const jump = block > jumpAt ? 0.5 : 0;
      roughness.push(0.2 * Math.sin(1.26 * atS) + jump + random.normal(noiseDeg(block)));
    }
    return roughness.closeBlock();
  });
}

describe('roughness within a block', () => {
  it("is used to an instrument's noise and to rolling", () => {
    expect(shaken(() => 0.01).filter(Boolean)).toEqual([]);
  });

  it('tells vibration within three blocks, and that it is over', () => {
    const shakes = shaken((block) => (block >= 60 && block < 80 ? 0.1 : 0.01));
    expect(shakes.slice(0, 60)).not.toContain(true);
    expect(shakes.indexOf(true)).toBeLessThanOrEqual(66);
    expect(shakes.slice(90)).not.toContain(true);
  });

  it('takes no jump for vibration, and no missing samples', () => {
    expect(shaken(() => 0.002, 70)).not.toContain(true);
    const roughness = new Roughness();
    for (let k = 0; k < 50; k++) {
      roughness.push(null);
      expect(roughness.closeBlock()).toBe(false);
    }
  });
});
