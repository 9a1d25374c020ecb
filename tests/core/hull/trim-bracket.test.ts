import { expect, test } from 'vitest';
import { TrimBracket } from '#core/hull/trim-bracket.ts';

test('closes in on where the lever changes its sign, whatever the order', () => {
  const bracket = new TrimBracket();
  expect(bracket.widthRad).toBe(Number.POSITIVE_INFINITY);
  for (const [trimRad, lever] of [
    [0.1, -2],
    [-0.2, 3],
    [0.04, -1],
    [-0.3, 4],
  ] as const) {
    bracket.see(trimRad, lever);
  }
  expect(bracket.widthRad).toBeCloseTo(0.24, 12);
  expect(bracket.middleRad).toBeCloseTo(-0.08, 12);
});
