import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  createHashNoise,
  createRandom,
  hashNormal,
  hashUniform,
  streamFromSeed,
} from '#core/numerics/random.ts';

const DRAWS = 40_000;
const mean = (values: readonly number[]) =>
  values.reduce((sum, one) => sum + one, 0) / values.length;
const many = (draw: (k: number) => number) => Array.from({ length: DRAWS }, (_, k) => draw(k));

describe('seeded chance', () => {
  it('gives the same sequence for the same seed and name, and another for another', () => {
    const draws = (seed: number, name: string) => {
      const chance = createRandom(seed, name);
      return Array.from({ length: 20 }, () => chance.normal());
    };
    expect(draws(7, 'swell')).toEqual(draws(7, 'swell'));
    expect(draws(7, 'swell')).not.toEqual(draws(8, 'swell'));
    expect(draws(7, 'swell')).not.toEqual(draws(7, 'wind'));
  });

  it('tells seeds apart over the whole range of whole numbers, and refuses others', () => {
    fc.assert(
      fc.property(fc.maxSafeInteger(), fc.integer({ min: 1, max: 2 ** 40 }), (seed, step) => {
        const other = seed > 0 ? seed - step : seed + step;
        expect(streamFromSeed(seed, 'a')).not.toBe(streamFromSeed(other, 'a'));
      }),
      { numRuns: 300, seed: 1 },
    );
    expect(() => streamFromSeed(0.5, 'a')).toThrow(RangeError);
  });

  it('turns half of the output bits when one input bit turns', () => {
    let turned = 0;
    const trials = 2000;
    for (let k = 0; k < trials; k++) {
      const bit = 2 ** (k % 31);
      const before = hashUniform(3, k);
      const after = hashUniform(3, k ^ bit);
      const bits = (Math.floor(before * 2 ** 32) ^ Math.floor(after * 2 ** 32)) >>> 0;
      turned += bits.toString(2).replaceAll('0', '').length;
    }
    // 32 coin tosses a trial: mean 16, standard error sqrt(8 / 2000) = 0.063.
    expect(turned / trials).toBeGreaterThan(15.7);
    expect(turned / trials).toBeLessThan(16.3);
  });

  it('draws uniforms and normals with the moments they should have', () => {
    const uniform = many((k) => hashUniform(11, k));
    expect(Math.min(...uniform)).toBeGreaterThan(0);
    expect(Math.max(...uniform)).toBeLessThan(1);
    // Standard errors: 1/sqrt(12 n) = 0.0014, 1/sqrt n = 0.005, sqrt(2/n) = 0.007, sqrt(96/n) = 0.05.
    expect(Math.abs(mean(uniform) - 0.5)).toBeLessThan(0.006);
    const normal = many((k) => hashNormal(11, k));
    expect(Math.abs(mean(normal))).toBeLessThan(0.02);
    expect(Math.abs(mean(normal.map((one) => one ** 2)) - 1)).toBeLessThan(0.03);
    expect(Math.abs(mean(normal.map((one) => one ** 4)) - 3)).toBeLessThan(0.2);
    const lagged = normal.slice(1).map((one, k) => one * normal[k]!);
    expect(Math.abs(mean(lagged))).toBeLessThan(0.02);
  });

  it('keeps streams and counters beyond 32 bits apart', () => {
    const near = many((k) => hashNormal(20, k));
    const other = many((k) => hashNormal(21, k));
    const far = many((k) => hashNormal(20, 2 ** 32 + k));
    expect(Math.abs(mean(near.map((one, k) => one * other[k]!)))).toBeLessThan(0.02);
    expect(Math.abs(mean(near.map((one, k) => one * far[k]!)))).toBeLessThan(0.02);
  });
});

describe('continuous noise', () => {
  it('answers the same whatever was asked before', () => {
    const places = [0, 0.3, 7.9, 8, 8.01, 3.2, 1e6 + 0.5];
    const inOrder = createHashNoise(5);
    const forwards = places.map((place) => inOrder(place));
    const backwards = places.map((place) => createHashNoise(5)(place));
    expect(backwards).toEqual(forwards);
  });

  it('has variance 1 on and between the whole numbers, and no jumps', () => {
    const noise = createHashNoise(6);
    for (const part of [0, 0.25, 0.5]) {
      const values = many((k) => noise(k + part));
      expect(Math.abs(mean(values.map((one) => one ** 2)) - 1)).toBeLessThan(0.03);
    }
    for (let k = 1; k < 500; k++) {
      expect(Math.abs(noise(k - 1e-6) - noise(k + 1e-6))).toBeLessThan(3e-5);
    }
  });
});
