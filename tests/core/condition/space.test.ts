import { expect, test } from 'vitest';
import { liquidFrom, type SpaceUse, spacesFrom } from '#core/condition/space.ts';

const BOX = { kind: 'rectangular', fromXM: 2, toXM: 4, fromYM: -1, toYM: 1, fromZM: 0.5, toZM: 2 };
const fuel = { space: 'fuel', use: 'fuel' as SpaceUse, shape: BOX as never, densityTM3: 0.85 };
const struck = { ...fuel, strikingPlace: { xM: 2, yM: 0, zM: 0.5 } };

test('share, volume and sounding of a box say the same', () => {
  const spaces = spacesFrom([struck]);
  expect(spaces.get('fuel')!.whole).toEqual({ volumeM3: 6, xM: 3, yM: 0, zM: 1.25 });
  for (const filling of [{ share: 0.5 }, { volumeM3: 3 }, { soundingM: 0.75 }]) {
    const liquid = liquidFrom(spaces, { space: 'fuel', ...filling }, 'departure');
    expect(liquid.volumeM3).toBeCloseTo(3, 12);
    expect(liquid.densityTM3).toBe(0.85);
  }
});

test('what cannot be is refused with a code', () => {
  const spaces = spacesFrom([fuel]);
  const fill = (filling: object) => () =>
    liquidFrom(spaces, { space: 'fuel', ...filling }, 'departure');
  expect(fill({})).toThrow(/input-contradiction/);
  expect(fill({ share: 0.5, volumeM3: 1 })).toThrow(/input-contradiction/);
  expect(fill({ soundingM: 0.5 })).toThrow(/input-contradiction/);
  expect(fill({ volumeM3: 6.1 })).toThrow(/input-range/);
  expect(fill({ space: 'water', share: 1 })).toThrow(/loading-unknown/);
  expect(() => spacesFrom([fuel, fuel])).toThrow(/input-contradiction/);
});
