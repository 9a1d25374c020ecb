import { expect, test } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { lightshipFrom, type MassCause } from '#core/survey/lightship.ts';
import { LIGHTSHIP_MATTERS, type SurveyItem } from '#core/survey/survey-input.ts';

const AS_INCLINED = { massT: 60, xTM: 60 * 7, yTM: 0.6, zTM: 60 * 2 };
const SHEET = {
  matters: LIGHTSHIP_MATTERS.map((matter) => ({ matter, agreed: 'in' as const })),
  agreedBy: ['architect', 'owner'],
};

const item = (
  name: string,
  kind: SurveyItem['kind'],
  massT: number,
  at: [number, number, number],
  more: Partial<SurveyItem> = {},
): SurveyItem => ({
  item: name,
  kind,
  massT,
  massUncertaintyT: 0,
  at: { xM: at[0], yM: at[1], zM: at[2] },
  placeUncertaintyM: 0,
  photographLine: 7,
  ...more,
});

// Weighed on paper: 60 t less a weight and a person, plus a winch, an anchor carried forward.
test('deduct, add, relocate: the moments of a table on paper', () => {
  const { massT, lcgM, tcgM, vcgM, provisional, advice } = lightshipFrom(AS_INCLINED, [], {
    sheet: SHEET,
    items: [
      item('A', 'test-weight', 0.5, [8, 1, 2.5]),
      item('ann', 'person', 0.075, [5, -1, 3]),
      item('winch', 'add', 0.4, [12, 0, 3]),
      item('anchor', 'relocate', 0.1, [1, 0, 2], { to: { xM: 15, yM: 0, zM: 2.4 } }),
    ],
  });
  const mass = 60 - 0.5 - 0.075 + 0.4;
  expect(massT.value).toBeCloseTo(mass, 12);
  expect(lcgM.value).toBeCloseTo((420 - 4 - 0.375 + 4.8 + 1.4) / mass, 12);
  expect(tcgM.value).toBeCloseTo((0.6 - 0.5 + 0.075) / mass, 12);
  expect(vcgM.value).toBeCloseTo((120 - 1.25 - 0.225 + 1.2 + 0.04) / mass, 12);
  expect(massT.standardUncertainty).toBe(0);
  expect([provisional, advice]).toEqual([false, []]);
});

test('something still to be fitted, or a sheet left open, makes it provisional', () => {
  const toCome = item('mast', 'to-be-fitted', 0.2, [6, 0, 6]);
  const fitted = lightshipFrom(AS_INCLINED, [], { sheet: SHEET, items: [toCome] });
  expect([fitted.provisional, fitted.toBeFittedT]).toEqual([true, 0.2]);
  expect(fitted.massT.value).toBeCloseTo(60.2, 12);
  const open = lightshipFrom(AS_INCLINED, [], { items: [] });
  expect(open.provisional).toBe(true);
  expect(open.advice.map((one) => one.code)).toEqual(['lightship-not-agreed']);
});

/** The same errors drawn many times: what the causes say against what comes. */
test('one error is one error: draught with KG, a scale with all it weighed, Monte Carlo', () => {
  const draught: MassCause = {
    cause: 'freeboards',
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    massT: 0.3,
    xTM: 0.3 * 7,
    yTM: 0,
    // KG falls 4 mm while the mass grows: 0.3 * 2 - 60 * 0.004
    zTM: 0.3 * 2 - 60 * 0.004,
  };
  const scale = { name: 'yard scale', uncertaintyShare: 0.02 };
  const items = [
    item('A', 'test-weight', 1, [8, 0, 2.5], { massScale: scale, massUncertaintyT: 0.005 }),
    item('B', 'test-weight', 1, [8, 0, 2.5], { massScale: scale, massUncertaintyT: 0.005 }),
    item('winch', 'add', 1, [12, 0, 4], { placeUncertaintyM: 0.1 }),
  ];
  const found = lightshipFrom(AS_INCLINED, [draught], { sheet: SHEET, items });
  const random = createRandom(11, 'lightship');
  const runs = 4000;
  const sums = { massT: 0, lcgM: 0, vcgM: 0 };
  for (let run = 0; run < runs; run++) {
    const d = random.normal();
    const s = 1 + random.normal(scale.uncertaintyShare);
    const drawn = [
      ...[0, 1].map(() => ({ m: -(s + random.normal(0.005)), x: 8, z: 2.5 })),
      { m: 1, x: 12 + random.normal(0.1), z: 4 + random.normal(0.1) },
    ];
    const mass = 60 + 0.3 * d + drawn.reduce((sum, one) => sum + one.m, 0);
    const x = 420 + draught.xTM * d + drawn.reduce((sum, one) => sum + one.m * one.x, 0);
    const z = 120 + draught.zTM * d + drawn.reduce((sum, one) => sum + one.m * one.z, 0);
    sums.massT += (mass - found.massT.value) ** 2;
    sums.lcgM += (x / mass - found.lcgM.value) ** 2;
    sums.vcgM += (z / mass - found.vcgM.value) ** 2;
  }
  // the deviation of 4000 draws is good to 1.1 %
  for (const name of ['massT', 'lcgM', 'vcgM'] as const) {
    const ratio = Math.sqrt(sums[name] / runs) / found[name].standardUncertainty;
    expect(Math.abs(ratio - 1)).toBeLessThan(0.045);
  }
  expect(found.budget[0]!.cause).toBe('freeboards');
});

test('parts of one cause are one row, and a thing relocated must say where to', () => {
  const part = (k: number, zTM: number): MassCause => ({
    cause: `freeboards, part ${k}`,
    degreesOfFreedom: 6,
    massT: 0,
    xTM: 0,
    yTM: 0,
    zTM,
  });
  const found = lightshipFrom(AS_INCLINED, [part(1, 0.3), part(2, 0.4)], {
    sheet: SHEET,
    items: [],
  });
  expect(found.budget).toMatchObject([{ cause: 'freeboards', vcgM: expect.closeTo(0.5 / 60, 12) }]);
  expect(found.vcgM.degreesOfFreedom).toBeCloseTo(6, 12);
  const lost = item('anchor', 'relocate', 0.1, [1, 0, 2]);
  expect(() => lightshipFrom(AS_INCLINED, [], { sheet: SHEET, items: [lost] })).toThrow(
    /input-contradiction.*anchor/,
  );
});
