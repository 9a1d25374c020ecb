import { expect, test } from 'vitest';
import { hullAfloat } from '#core/flotation/hull-afloat.ts';
import { liquidsLeverM } from '#core/reduction/liquids.ts';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';
import { BOX_HULL, BOX_LENGTH_M } from '#tests/core/flotation/box-hull.ts';
import { FUEL, floatedTest } from '#tests/core/reduction/a-floated-test.ts';
import { BOX, restingHeel } from '#tests/core/reduction/closed-hulls.ts';

const hull = hullAfloat(BOX_HULL, BOX_LENGTH_M);
const { kind: _, ...sides } = FUEL;
const liquid = { tank: 'fuel', shape: rectangularTank(sides), volumeM3: 8, densityTM3: 0.85 };
const lever = liquidsLeverM([liquid], BOX.displacement, 0);

test('free surface is taken exactly once between the test and the loading', () => {
  const exact = reduceTest(floatedTest(2), hull).exact!;
  // the vessel is loaded again as she was inclined: KG solid and her liquids make the heels read
  const moment = 6;
  const heel = restingHeel(BOX, { kg: exact.kgSolid.value, tcg: 0.004, my: moment }, lever);
  const read = floatedTest(2).states[2]!.readings['fore']!;
  expect((heel * 180) / Math.PI).toBeCloseTo(read, 5);
  // taken twice (KG of the fluid GM, and the liquids again) or never (KG solid, liquids frozen),
  // the heel is another
  const virtual = exact.km - exact.gmFluid.value;
  const twice = restingHeel(BOX, { kg: virtual, tcg: 0.004, my: moment }, lever);
  const never = restingHeel(BOX, { kg: exact.kgSolid.value, tcg: 0.004, my: moment });
  for (const wrong of [twice, never]) {
    expect(Math.abs((wrong * 180) / Math.PI - read)).toBeGreaterThan(0.3);
  }
});

test('law: the tank pumped dry or pressed full, KG solid less the liquid is the same vessel', () => {
  for (const volumeM3 of [0.3, 4, 8, 12, 12.7]) {
    const moved = liquidsLeverM([{ ...liquid, volumeM3 }], BOX.displacement, 0);
    const written = floatedTest(2);
    written.liquids!.tanks[0]!.volumeM3 = volumeM3;
    written.states.forEach((state) => {
      const heel = restingHeel(BOX, { kg: 2, tcg: 0.004, my: state.heelingMoment! }, moved);
      state.readings['fore'] = (heel * 180) / Math.PI;
    });
    expect(reduceTest(written, hull).exact!.kgSolid.value).toBeCloseTo(2, 6);
  }
});
