import { expect, it } from 'vitest';
import { cubicAt, intervalAt, nodeAt, sectionAt } from '#core/hull/body.ts';
import { prism, wigley } from './hulls.ts';

it('follows a cubic between two stations', () => {
  const cubic = (x: number) => 1 + x * (2 - x * (3 - x));
  expect(cubicAt(cubic(0), 2, cubic(1), 2 - 6 + 3, 0.3)).toBeCloseTo(cubic(0.3), 14);
});

it('finds the interval of an x, and nothing beyond the ends', () => {
  const { main } = prism(20, 5, [
    [0, 0],
    [3, 0],
    [3, 3],
  ]);
  expect(intervalAt(main, 7.5)).toEqual({ interval: 1, share: 0.5 });
  expect(intervalAt(main, 20)).toEqual({ interval: 3, share: 1 });
  expect(intervalAt(main, 20.01)).toBeNull();
  expect(intervalAt(main, Number.NaN)).toBeNull();
});

it('gives one node as it gives the whole section', () => {
  const { main } = wigley(16, 3.2, 1.5, 9, 6);
  const whole = new Float64Array(2 * main.nodes);
  sectionAt(main, 2, 0.37, whole, 0);
  for (let k = 0; k < main.nodes; k++) {
    const [y, z] = nodeAt(main, 2, k, 0.37);
    expect(y).toBeCloseTo(whole[2 * k]!, 13);
    expect(z).toBeCloseTo(whole[2 * k + 1]!, 13);
  }
});
