import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { noiseDeg } from '#ui/sensors/noise.ts';

describe('the noise of an instrument', () => {
  it('is that of the samples, whatever the vessel does slowly', () => {
    const random = createRandom(4);
    const heelDeg = Array.from(
      { length: 4000 },
      (_, k) => 2 * Math.sin(k / 60) + 0.003 * random.normal(),
    );
    expect(noiseDeg(heelDeg)!).toBeGreaterThan(0.0028);
    expect(noiseDeg(heelDeg)!).toBeLessThan(0.0032);
  });

  it('is not told from too little', () => {
    expect(noiseDeg([1, 2, 3])).toBeNull();
    expect(noiseDeg(Array.from({ length: 60 }, (_, k) => (k % 2 ? null : k)))).toBeNull();
  });
});
