import { expect, test } from 'vitest';
import { nearTheWater } from '#core/reduction/plan-safety.ts';

const radians = (heelDeg: number) => (heelDeg * Math.PI) / 180;

test('what comes under water within twice the planned heel is named with its side', () => {
  const sides = (['port', 'starboard'] as const).map((side) => ({
    side,
    deckEdgeRad: radians(side === 'port' ? 5 : 12),
    openings: [
      { name: 'scuttle', immersedRad: radians(5.9) },
      { name: 'hatch', immersedRad: null },
    ],
  }));
  const advice = nearTheWater(sides, { port: 3, starboard: 2.5 });
  expect(advice.map((one) => [one.code, one.where])).toEqual([
    ['deck-edge-near', 'to port'],
    ['opening-near', 'scuttle, to port'],
  ]);
  expect(advice[0]).toMatchObject({ found: expect.closeTo(5, 9), limit: 6 });
});
