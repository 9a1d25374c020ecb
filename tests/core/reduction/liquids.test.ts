import { expect, test } from 'vitest';
import { liquidsLeverM } from '#core/reduction/liquids.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';

const shape = rectangularTank({ fromXM: 0, toXM: 3, fromYM: 1, toYM: 2.66, fromZM: 0, toZM: 1.5 });

// rho l b3 / 12 / displacement (1 + t2 / 2) sin: the wedge, while no side falls dry.
test('a tank half full: the wedge in closed form at any heel', () => {
  const lever = liquidsLeverM(
    [{ tank: 'fuel', shape, volumeM3: 3 * 1.66 * 0.75, densityTM3: 0.85 }],
    60,
    0,
  );
  for (const heel of [-0.3, -0.05, 0.02, 0.3]) {
    const inertia = (0.85 * 3 * 1.66 ** 3) / 12 / 60;
    const wedge = inertia * (1 + Math.tan(heel) ** 2 / 2) * Math.sin(heel);
    expect(lever(heel)).toBeCloseTo(wedge, 10);
  }
  expect(lever(0)).toBe(0);
});

test('liquids add; full and empty tanks do nothing', () => {
  const tank = (volumeM3: number) => ({ tank: 'a', shape, volumeM3, densityTM3: 1 });
  const one = liquidsLeverM([tank(2)], 50, 0)(0.1);
  expect(liquidsLeverM([tank(2), tank(2)], 50, 0)(0.1)).toBeCloseTo(2 * one, 14);
  expect(liquidsLeverM([tank(3 * 1.66 * 1.5), tank(0)], 50, 0)(0.1)).toBeCloseTo(0, 14);
});
