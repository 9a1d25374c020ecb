import { expect, test } from 'vitest';
import { distanceKey, plannedDistances } from '#core/session/planned-distances.ts';
import { marramTest } from '#device/emulated/marram.ts';

test('each shift of the plan goes from where its weight stood before it', () => {
  const moves = plannedDistances({ test: marramTest() });
  expect(moves.map(distanceKey)).toEqual(['1 A', '2 B', '3 B', '4 A', '5 C', '6 D', '7 D', '8 C']);
  for (const { weight, distanceM, state } of moves)
    expect(distanceM, `${state} ${weight}`).toBeCloseTo(
      [1, 2, 7, 8].includes(state) ? 4.2 : -4.2,
      12,
    );
});

test('a weight the test does not know has no distance', () => {
  const [first] = marramTest().plan;
  const [move] = first!.moves;
  const plan = [{ moves: [{ ...move!, weight: 'Z' }] }];
  expect(plannedDistances({ test: { ...marramTest(), plan } })).toEqual([]);
  expect(plannedDistances({ test: null })).toEqual([]);
});
