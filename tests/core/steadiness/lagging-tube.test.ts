import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { createWatch } from '#core/steadiness/watch.ts';

const STEP_DEG = 1.4;

/** A landing of 1.4 degrees with a tube that says it settles in 14 s; its heel when first offered. */
function tubeWhenRead(constantS: number, seed: number): { atS: number; offDeg: number } {
  const chance = createRandom(seed, 'tube');
  const watch = createWatch({
    instruments: [
      { instrument: 'fore', label: 'Fore', settlingS: 1, refused: null },
      { instrument: 'tube', label: 'Water tube', settlingS: 14, refused: null },
    ],
  });
  watch.beginState(0);
  let tube = 0;
  for (let k = 0; k < 6000; k++) {
    const atS = k / 10;
    const heel = STEP_DEG + 0.03 * Math.sin((2 * Math.PI * atS) / 4.7) + chance.normal(0.002);
    tube += (0.1 / constantS) * (heel - tube);
    watch.push('fore', atS, heel);
    watch.push('tube', atS, tube + 0.2 + chance.normal(0.003));
    if (k % 10 !== 0 || !watch.picture(atS).joined.readable) continue;
    const read = watch.reading(atS).instruments.find(({ instrument }) => instrument === 'tube');
    if (read !== undefined) return { atS, offDeg: read.heelDeg - 0.2 - STEP_DEG };
  }
  throw new Error('never read');
}

describe('a water tube in the watch', () => {
  it('that lags more than its mounting says is not read before it has settled all the same', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const { atS, offDeg } = tubeWhenRead(5, seed);
      expect(Math.abs(offDeg)).toBeLessThan(0.006);
      expect(atS).toBeGreaterThan(35);
    }
  });

  it('that is as quick as it says is not waited for any longer', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const { atS, offDeg } = tubeWhenRead(2, seed);
      expect(Math.abs(offDeg)).toBeLessThan(0.006);
      expect(atS).toBeLessThan(60);
    }
  });
});
