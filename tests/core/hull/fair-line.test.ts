import { expect, it } from 'vitest';
import { fairLine } from '#core/hull/fair-line.ts';

it('passes its points, is exact for a parabola, and ends where they end', () => {
  const x = [0, 1, 3, 4];
  const line = fairLine(
    x,
    x.map((one) => one * one),
  );
  expect(line(3)).toBe(9);
  expect(line(2)).toBeCloseTo(4, 12);
  expect(line(4.001)).toBeNull();
  expect(line(-0.001)).toBeNull();
  expect(fairLine([2], [7])(2)).toBe(7);
  expect(fairLine([2], [7])(2.1)).toBeNull();
});
