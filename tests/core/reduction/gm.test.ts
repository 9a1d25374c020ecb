import { expect, test } from 'vitest';
import { solveGm } from '#core/reduction/gm.ts';

const UNITS = [0, 1, 2, 1, 0, -1, -2, -1, 0];

/**
 * Two complete tests on hulls in closed form: heels of (TCG + m/D) cos + KG sin = KN solved for
 * each state, KN of a box (L 20, B 6, T 1.5) and of a half-immersed ellipse (a 3, c 1.5, L 20).
 */
const BOX = {
  displacement: 184.5,
  gm: 0.55,
  c2: 1,
  unit: 3,
  heels: [0.416649172, 2.104469234, 3.769239231, -1.275830277, -2.954143277],
};
const ELLIPSE = {
  displacement: 144.905961147,
  gm: 1.909859317,
  c2: -3.819718634,
  unit: 8,
  heels: [0.240007019, 1.899717835, 3.575477677, -1.417690969, -3.08732642],
};

function problemOf(hull: typeof BOX, metacentreMovement: number) {
  const heelOf = (unit: number) => hull.heels[unit >= 0 ? unit : 2 - unit]!;
  return {
    displacement: hull.displacement,
    heelingMoments: UNITS.map((unit) => unit * hull.unit),
    verticalMoments: UNITS.map(() => 0),
    tangents: UNITS.map((unit) => [Math.tan((heelOf(unit) * Math.PI) / 180)]),
    metacentreMovement,
  };
}

test('classical answers of the box and the ellipse, with the error the classical line makes', () => {
  expect(solveGm(problemOf(BOX, 0)).gm).toBeCloseTo(0.55274235, 7);
  expect(solveGm(problemOf(ELLIPSE, 0)).gm).toBeCloseTo(1.90003944, 7);
});

test("with the metacentre's movement taken out the truth comes back", () => {
  expect(Math.abs(solveGm(problemOf(BOX, BOX.c2)).gm - BOX.gm)).toBeLessThan(1e-7);
  // of the ellipse's fifth-order term some 0.1 mm is left, where the classical line is 9.8 mm off
  expect(Math.abs(solveGm(problemOf(ELLIPSE, ELLIPSE.c2)).gm - ELLIPSE.gm)).toBeLessThan(1.2e-4);
  // TCG: the intercept is TCG / GM
  expect(solveGm(problemOf(BOX, BOX.c2)).fit.listTangent * BOX.gm).toBeCloseTo(0.004, 6);
});

test('a weight that also rises gives the right GM only with its vertical moment', () => {
  // box, KG 2.2, TCG .004: (m_y, m_z) and heel
  const heels = [0.416649172, 2.129442205, 3.85806778];
  const problem = {
    displacement: 184.5,
    heelingMoments: [0, 3, 6],
    verticalMoments: [0, 1.2, 2.4],
    tangents: heels.map((heel) => [Math.tan((heel * Math.PI) / 180)]),
    metacentreMovement: 1,
  };
  expect(solveGm(problem).gm).toBeCloseTo(0.55, 6);
  expect(Math.abs(solveGm({ ...problem, verticalMoments: [0, 0, 0] }).gm - 0.55)).toBeGreaterThan(
    0.005,
  );
});

test('a vessel that heels away from the moment is refused: a sign is wrong', () => {
  const problem = { ...problemOf(BOX, 0), heelingMoments: UNITS.map((unit) => -3 * unit) };
  expect(() => solveGm(problem)).toThrow(/line-not-determined.*signs/);
});
