import { expect, it } from 'vitest';
import { spacesFrom } from '#core/condition/space.ts';
import { spaceTable } from '#core/condition/space-table.ts';

const box = {
  space: 'fuel',
  use: 'fuel' as const,
  densityTM3: 0.84,
  shape: {
    kind: 'rectangular' as const,
    ...{ fromXM: 3, toXM: 5, fromYM: -2, toYM: -1, fromZM: 0.5, toZM: 1.25 },
  },
};
const tableOf = (strikingPlace?: { xM: number; yM: number; zM: number }) =>
  spaceTable(
    spacesFrom([{ ...box, ...(strikingPlace === undefined ? {} : { strikingPlace }) }]).get(
      'fuel',
    )!,
  );

it('tables a box by its closed form, up to the first sounding at which it is full', () => {
  const table = tableOf({ xM: 4, yM: -1.5, zM: 0.5 });
  expect(table.volumeM3).toBeCloseTo(1.5, 12);
  expect([table.xM, table.yM, table.zM]).toEqual(
    [4, -1.5, 0.875].map((value) => expect.closeTo(value, 9)),
  );
  expect(table.soundings).toHaveLength(9);
  for (const { depthM, volumeM3 } of table.soundings)
    expect(volumeM3).toBeCloseTo(Math.min(2 * depthM, 1.5), 9);
});

it('has no soundings without a striking place', () => {
  expect(tableOf().soundings).toEqual([]);
});
