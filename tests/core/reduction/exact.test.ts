import { expect, test } from 'vitest';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import type { Causes } from '#core/reduction/budget.ts';
import { type ExactHull, exactAnswer } from '#core/reduction/exact.ts';
import { solveGm } from '#core/reduction/gm.ts';
import { type LiquidAboard, liquidsLeverM } from '#core/reduction/liquids.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';
import { BOX, type ClosedHull, ELLIPSE, restingHeel } from '#tests/core/reduction/closed-hulls.ts';

const UNITS = [0, 1, 2, 1, 0, -1, -2, -1, 0];
const CERTAIN: Causes = {
  displacementUncertainty: 0,
  km: null,
  metacentreMovementUncertainty: 0,
  together: [],
  weights: [],
  massScaleUncertainty: 0,
  distanceUncertainty: 0,
  momentScaleUncertainty: 0,
  instruments: [{ instrument: 'inclinometer', scaleUncertainty: 0, space: 'angle' }],
  angleScaleUncertainty: 0,
};

const hullOf = (
  hull: ClosedHull,
  liquids: readonly LiquidAboard[] = [],
  states = UNITS.length,
): ExactHull => ({
  knAt: () => hull.kn,
  liquids,
  trimSlopes: new Array<number>(states).fill(0),
  liquidUncertaintyShare: 0,
  kmUncertaintyM: 0,
});

const problemOf = (
  hull: ClosedHull,
  unit: number,
  heelsDeg: readonly number[],
  rise: readonly number[] = heelsDeg.map(() => 0),
  units: readonly number[] = UNITS,
) => ({
  displacement: hull.displacement,
  heelingMoments: units.map((one) => unit * one),
  verticalMoments: rise,
  tangents: heelsDeg.map((heel) => [Math.tan(radiansFromDegrees(heel))]),
  metacentreMovement: 0,
});

// Two complete tests worked apart from this program; heels at unit 0, +1, +2, -1, -2.
const TESTS = [
  {
    name: 'box',
    hull: BOX,
    unit: 3,
    kg: 2.2,
    tcg: 0.004,
    classical: '0.55274235',
    gm: 0.55,
    heels: [0.416649172, 2.104469234, 3.769239231, -1.275830277, -2.954143277],
  },
  {
    name: 'ellipse',
    hull: ELLIPSE,
    unit: 8,
    kg: 1.5,
    tcg: 0.008,
    classical: '1.90003944',
    gm: 1.909859317,
    heels: [0.240007019, 1.899717835, 3.575477677, -1.417690969, -3.08732642],
  },
];

test.each(TESTS)('$name: the line is wrong by millimetres, the exact equation by none', (one) => {
  const [zero, up, upTwice, down, downTwice] = one.heels as [
    number,
    number,
    number,
    number,
    number,
  ];
  const heels = [zero, up, upTwice, up, zero, down, downTwice, down, zero];
  const problem = problemOf(one.hull, one.unit, heels);
  expect(solveGm(problem).gm.toFixed(8)).toBe(one.classical);
  const { answer, freeSurfaceM, kmM } = exactAnswer(problem, CERTAIN, hullOf(one.hull));
  expect(answer.solution.gm).toBeCloseTo(one.gm, 7);
  expect(answer.kg!.value).toBeCloseTo(one.kg, 7);
  expect(answer.solution.fit.listTangent * answer.solution.gm).toBeCloseTo(one.tcg, 7);
  expect(kmM).toBeCloseTo(one.hull.km, 8);
  expect(freeSurfaceM).toBe(0);
});

// (m_y, m_z) = (0, 0), (3, 1.2), (6, 2.4): worked apart from this program.
test('a weight that also rises: KG 2.2 only where the rise is used', () => {
  const heels = [0.416649172, 2.129442205, 3.85806778];
  const solved = (rise: number[]) =>
    exactAnswer(problemOf(BOX, 3, heels, rise, [0, 1, 2]), CERTAIN, hullOf(BOX, [], 3)).answer.kg!
      .value;
  expect(solved([0, 1.2, 2.4])).toBeCloseTo(2.2, 7);
  expect(Math.abs(solved([0, 0, 0]) - 2.2)).toBeGreaterThan(0.005);
});

const TANK: LiquidAboard = {
  tank: 'fuel',
  shape: rectangularTank({ fromXM: 4, toXM: 8, fromYM: -2, toYM: 2, fromZM: 0.2, toZM: 1 }),
  volumeM3: 8,
  densityTM3: 0.85,
};
/** A film that pockets within the heels of the test. */
const FILM: LiquidAboard = {
  ...TANK,
  tank: 'bilge',
  shape: rectangularTank({ fromXM: 10, toXM: 13, fromYM: -2.5, toYM: 2.5, fromZM: 0, toZM: 0.5 }),
  volumeM3: 0.25,
  densityTM3: 1.025,
};

const heelsWith = (liquids: readonly LiquidAboard[], kg: number) => {
  const lever = liquidsLeverM(liquids, BOX.displacement, 0);
  return UNITS.map(
    (unit) => (restingHeel(BOX, { kg, tcg: 0.004, my: 3 * unit }, lever) * 180) / Math.PI,
  );
};

test('slack tanks: KG solid comes out, the film that pockets included', () => {
  const problem = problemOf(BOX, 3, heelsWith([TANK, FILM], 2));
  const { answer, freeSurfaceM, gmSolidM } = exactAnswer(
    problem,
    CERTAIN,
    hullOf(BOX, [TANK, FILM]),
  );
  expect(answer.kg!.value).toBeCloseTo(2, 7);
  expect(gmSolidM).toBeCloseTo(0.75, 6);
  expect(answer.solution.gm).toBeCloseTo(gmSolidM - freeSurfaceM, 12);
  // the same without the liquids is a virtual KG, higher by less than their upright free surface
  const virtual = exactAnswer(problem, CERTAIN, hullOf(BOX)).answer.kg!.value;
  expect(virtual - 2).toBeGreaterThan(0.01);
  expect(virtual - 2).toBeLessThan(freeSurfaceM - 0.002);
});

// rho l b3 / 12 / displacement (Barrass & Derrett, Ship Stability for Masters and Mates).
test('the free surface of a rectangular tank is its own inertia over displacement', () => {
  const problem = problemOf(BOX, 3, heelsWith([TANK], 2));
  const { freeSurfaceM } = exactAnswer(problem, CERTAIN, hullOf(BOX, [TANK]));
  expect(freeSurfaceM).toBeCloseTo((0.85 * 4 * 4 ** 3) / 12 / 184.5, 8);
});

test('a tank sounded badly costs KG solid and not the fluid GM', () => {
  const problem = problemOf(BOX, 3, heelsWith([TANK], 2));
  const { answer, freeSurfaceM } = exactAnswer(problem, CERTAIN, {
    ...hullOf(BOX, [TANK]),
    liquidUncertaintyShare: 0.1,
  });
  const row = answer.budget.find((one) => one.cause === 'free surface in fuel')!;
  expect(row.kg).toBeCloseTo(0.1 * freeSurfaceM, 10);
  expect(row.gm).toBe(0);
});

test('instruments mounted askew: the list by freeboards makes KG right again', () => {
  const heels = heelsWith([], 2.2);
  const problem = problemOf(
    BOX,
    3,
    heels.map((heel) => heel + 2),
  );
  const hull = hullOf(BOX);
  const askew = exactAnswer(problem, CERTAIN, hull).answer.kg!.value;
  expect(Math.abs(askew - 2.2)).toBeGreaterThan(0.002);
  const firstTangent = Math.tan(radiansFromDegrees(heels[0]!));
  const righted = exactAnswer({ ...problem, firstTangent }, CERTAIN, hull).answer.kg!.value;
  expect(Math.abs(righted - 2.2)).toBeLessThan(1e-3);
});

test('weights that also go forward: the trim of each state is in its own KN', () => {
  // an invented hull whose metacentre rises as she trims: KN sin + 5 trim2 sin
  const knAt = (trimSlope: number) => (heelRad: number) =>
    BOX.kn(heelRad) + 5 * trimSlope ** 2 * Math.sin(heelRad);
  const trimSlopes = [0, 0.02, 0.04, 0.02, 0, 0.02, 0.04, 0.02, 0];
  const heels = UNITS.map((unit, i) => {
    const trimmed = { ...BOX, kn: knAt(trimSlopes[i]!) };
    return (restingHeel(trimmed, { kg: 2.2, tcg: 0.004, my: 3 * unit }) * 180) / Math.PI;
  });
  const problem = problemOf(BOX, 3, heels);
  const { answer } = exactAnswer(problem, CERTAIN, { ...hullOf(BOX), knAt, trimSlopes });
  expect(answer.kg!.value).toBeCloseTo(2.2, 7);
  const untrimmed = exactAnswer(problem, CERTAIN, hullOf(BOX)).answer.kg!.value;
  expect(Math.abs(untrimmed - 2.2)).toBeGreaterThan(0.002);
});
