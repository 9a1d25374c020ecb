import { expect, it } from 'vitest';
import { gaussRule } from '#core/hull/gauss.ts';

it('integrates every power up to 2n - 1 exactly', () => {
  for (const n of [1, 2, 3, 4, 5, 6]) {
    const { at, weight } = gaussRule(n);
    for (let power = 0; power < 2 * n; power++) {
      const sum = at.reduce((all, x, k) => all + weight[k]! * x ** power, 0);
      expect(sum).toBeCloseTo(1 / (power + 1), 14);
    }
    const beyond = at.reduce((all, x, k) => all + weight[k]! * x ** (2 * n), 0);
    expect(Math.abs(beyond - 1 / (2 * n + 1))).toBeGreaterThan(1e-8);
  }
});
