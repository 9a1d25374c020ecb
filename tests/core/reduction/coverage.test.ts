import { expect, test } from 'vitest';
import { hullAfloat } from '#core/flotation/hull-afloat.ts';
import { BOX_HULL, BOX_LENGTH_M } from '#tests/core/flotation/box-hull.ts';
import { drawnTestScore } from '#tests/support/drawn-test.ts';

const TESTS = 500;

test('the 95 % interval of KG solid holds the truth as often as it says', () => {
  const hull = hullAfloat(BOX_HULL, BOX_LENGTH_M);
  let inside = 0;
  for (let seed = 1; seed <= TESTS; seed++) if (drawnTestScore(seed, hull).inside) inside += 1;
  // binomial standard deviation of 500 at .95: 1 %
  expect(inside / TESTS).toBeGreaterThan(0.92);
  expect(inside / TESTS).toBeLessThan(0.98);
}, 60_000);
