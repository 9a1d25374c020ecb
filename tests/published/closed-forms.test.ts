import { expect, test } from 'vitest';
import { rightingFrom } from '#core/flotation/righting.ts';
import { knAt } from '#core/hull/righting-lever.ts';
import { liquidsLeverM } from '#core/reduction/liquids.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';
import { ellipseSection, prism, type Section } from '#tests/core/hull/hulls.ts';

const DEGREE = Math.PI / 180;

const BOX: Section = [
  [0, 0],
  [3, 0],
  [3, 3],
];

/** Classical GM of one shift: the moment over displacement that holds her there, over the tangent. */
function apparentGmM(section: Section, volumeM3: number, kgM: number, heelRad: number): number {
  const hull = prism(20, 5, section);
  const { knM } = knAt(hull, volumeM3, heelRad, { fixedTrimRad: 0 }, { trimRad: 0 });
  return knM / Math.cos(heelRad) / Math.tan(heelRad) - kgM;
}

// Calculated from KN in closed form: box L20 B6 T1.5 at KG 2.2, half-immersed ellipse 3 by 1.5 at KG 1.5.
test.each([
  ['box', BOX, 180, 2.2, 0.55, [0.305, 2.747, 7.654, 31.091], [1, 3, 5, 10]],
  [
    'ellipse',
    ellipseSection(3, 1.5, 400),
    141.371669412,
    1.5,
    1.909859317,
    [-1.163, -10.405, -28.582],
    [1, 3, 5],
  ],
] as const)(
  '%s: classical GM of one shift is off by c2 tan2(heel)',
  (...[, section, volumeM3, kgM, gmM, offMm, heels]) => {
    heels.forEach((heelDeg, k) => {
      const offM = apparentGmM(section, volumeM3, kgM, heelDeg * DEGREE) - gmM;
      // Half the last digit printed, and what a polyline of the ellipse leaves.
      expect(Math.abs(1000 * offM - offMm[k]!)).toBeLessThan(0.01);
    });
  },
);

// Barrass & Derrett, Ship Stability for Masters and Mates: inputs of the example as printed, the answer
// calculated. A double-bottom tank of 15 x 10 x 2 m, full of salt water, is pumped to half.
test('a tank pumped to half: what is lost, and the free surface taken once', () => {
  const full = 15 * 10 * 2 * 1.025;
  const pumped = full / 2;
  const before = { massT: 8153.75, kgM: 7.5 };
  const massT = before.massT - pumped;
  const kgM = (before.massT * before.kgM - pumped * 1.5) / massT;
  expect(massT).toBeCloseTo(8000, 9);
  expect(kgM).toBeCloseTo(7.615312, 6);
  const shape = rectangularTank({ fromXM: 0, toXM: 15, fromYM: -5, toYM: 5, fromZM: 0, toZM: 2 });
  const tank = { tank: 'double bottom', shape, volumeM3: 150, densityTM3: 1.025 };
  const lostM = -rightingFrom(() => 0, liquidsLeverM([tank], massT, 0)).metacentreM;
  expect(lostM).toBeCloseTo(0.160156, 6);
  expect(8 - kgM - lostM).toBeCloseTo(0.224531, 6);
});
