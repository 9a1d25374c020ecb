import { describe, expect, it } from 'vitest';
import { lowPassKernel } from '#core/signal/low-pass.ts';

describe('low-pass kernel', () => {
  const kernel = lowPassKernel(3, 0.5);
  const gain = (frequencyHz: number) => {
    let sum = 0;
    let all = 0;
    for (let k = -5000; k <= 5000; k++) {
      const weight = kernel.at(Math.abs(k) * 1e-4);
      sum += weight * Math.cos(2 * Math.PI * frequencyHz * k * 1e-4);
      all += weight;
    }
    return sum / all;
  };

  it('is one at its centre and nothing beyond its support', () => {
    expect(kernel.at(0)).toBeCloseTo(1, 12);
    expect(kernel.at(0.5)).toBeCloseTo(0, 12);
    expect(kernel.at(0.51)).toBe(0);
  });

  it('passes half at the cut-off, roll whole, and stops from 6.5 Hz on', () => {
    expect(gain(3)).toBeCloseTo(0.5, 1);
    expect(Math.abs(gain(0.2) - 1)).toBeLessThan(0.002);
    for (let f = 6.5; f < 60; f += 0.37) expect(Math.abs(gain(f))).toBeLessThan(0.002);
  });
});
