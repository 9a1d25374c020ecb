import { expect, test } from 'vitest';
import { straightLine } from '#core/numerics/least-squares.ts';
import { bracketedRoot } from '#core/numerics/root.ts';
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

/** A vessel of 60 t and GM 0.9 m inclined to 2 degrees with a liquid: GM by the line, largest residual in degrees. */
function inclinedWith(tank: ReturnType<typeof rectangularTank>, massT: number) {
  const liquid = { tank: 'bilge', shape: tank, volumeM3: massT, densityTM3: 1 };
  const lever = liquidsLeverM([liquid], 60, 0);
  const unit = (60 * 0.9 * Math.tan((2 * Math.PI) / 180)) / 2;
  const moments = [0, 1, 2, 1, 0, -1, -2, -1, 0].map((k) => k * unit);
  const heels = moments.map((moment) =>
    bracketedRoot(
      (heel) => (moment * Math.cos(heel)) / 60 - 0.9 * Math.sin(heel) + lever(heel),
      -0.3,
      0.3,
    ),
  );
  const line = straightLine(moments, heels.map(Math.tan));
  const off = heels.map(
    (heel, i) => ((heel - Math.atan(line.intercept + line.slope * moments[i]!)) * 180) / Math.PI,
  );
  return { gmM: 1 / (60 * line.slope), heels, mostOffDeg: Math.max(...off.map(Math.abs)) };
}

// 76 kg, 10 cm deep, 3 m wide: rho l b3 / 12 = 0.57 t m, 1.06 % of 60 t times 0.9 m (calculated apart)
test('liquid that keeps its full width lowers GM and leaves the line perfectly straight', () => {
  const lengthM = 0.076 / 0.3;
  const bilge = { fromXM: 0, toXM: lengthM, fromYM: -1.5, toYM: 1.5, fromZM: 0, toZM: 1 };
  const { gmM, mostOffDeg } = inclinedWith(rectangularTank(bilge), 0.076);
  expect(gmM / 0.9 - 1).toBeCloseTo(-0.0106, 4);
  expect(mostOffDeg).toBeLessThan(5e-5);
});

test('a film that runs to one side bends the line: she heels fastest at zero', () => {
  const deck = { fromXM: 0, toXM: 1.5, fromYM: -1.5, toYM: 1.5, fromZM: 0, toZM: 1 };
  const { heels, mostOffDeg } = inclinedWith(rectangularTank(deck), 0.045);
  expect(mostOffDeg).toBeGreaterThan(0.01);
  expect(heels[1]! - heels[0]!).toBeGreaterThan(heels[2]! - heels[1]!);
});
