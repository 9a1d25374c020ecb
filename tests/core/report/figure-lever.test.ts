import { expect, it } from 'vitest';
import { figureLever } from '#core/report/figure-lever.ts';
import { boxAnswer } from '#tests/support/box-booklet.ts';

it('draws both sides, and a line where the first opening goes under', () => {
  const [one] = boxAnswer().conditions;
  const svg = figureLever(one!);
  expect(svg).not.toMatch(/NaN|Infinity/);
  const flooded = {
    sides: one!.sides.map((side) => ({
      ...side,
      openings: [
        { opening: 'vent', openFrom: 'weathertight' as const, immersedDeg: 50 },
        { opening: 'door', openFrom: null, immersedDeg: 20 },
      ],
    })),
  };
  const lines = figureLever(flooded).match(/M[\d.]+ 10V156" fill="none" stroke="#101418"/g) ?? [];
  expect(lines).toHaveLength(2);
});
