import { describe, expect, it } from 'vitest';
import { Cusum } from '#core/signal/cusum.ts';

describe('tabular CUSUM', () => {
  it('gives the published sums', () => {
    // Montgomery and Runger, Applied Statistics and Probability for Engineers, table 16-8:
    // target 99, K 1, start 0; to the one decimal printed.
    const x = [
      102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1, 101.3, 98.7, 101.1, 98.4, 97.0,
      96.7, 100.3, 101.4, 97.2, 101.0,
    ];
    const up = [2.0, 0, 0, 0, 2.0, 0.5, 0, 0, 0, 0, 1.3, 0, 1.1, 0, 0, 0, 0.3, 1.7, 0, 1.0];
    const down = [0, 3.2, 2.9, 2.5, 0, 0, 0, 0.3, 0, 0, 0, 0, 0, 0, 1.0, 2.3, 0, 0, 0.8, 0];
    const cusum = new Cusum(99, 1);
    x.forEach((value, k) => {
      const sums = cusum.push(value);
      expect(sums.up).toBeCloseTo(up[k]!, 9);
      expect(sums.down).toBeCloseTo(down[k]!, 9);
    });
  });

  it('counts since when a sum has been piling up, and forgets on reset', () => {
    const cusum = new Cusum(0, 0.5);
    for (const x of [0, 0, 2, 2, 2]) cusum.push(x);
    expect([cusum.up, cusum.upRun, cusum.downRun]).toEqual([4.5, 3, 0]);
    cusum.reset();
    expect([cusum.up, cusum.down, cusum.upRun]).toEqual([0, 0, 0]);
  });
});
