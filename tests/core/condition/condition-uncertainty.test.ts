import { expect, test } from 'vitest';
import { loadedCondition } from '#core/condition/condition.ts';
import { conditionKg, upperKg95M } from '#core/condition/condition-uncertainty.ts';
import { lightshipInput } from '#core/condition/lightship-input.ts';

const loaded = (kgUncertaintyM: number | undefined, massUncertaintyT: number) =>
  loadedCondition({
    name: 'test',
    lightship: lightshipInput.parse({
      mass: { value: 40, standardUncertainty: massUncertaintyT },
      lcg: { value: 6 },
      tcg: { value: 0 },
      vcg: {
        value: 2,
        degreesOfFreedom: 6,
        ...(kgUncertaintyM === undefined ? {} : { standardUncertainty: kgUncertaintyM }),
      },
    }),
    spaces: new Map(),
    fillings: [],
    items: [{ item: 'box', use: 'catch', massT: 10, at: { xM: 5, yM: 0, zM: 1 } }],
  });

test('by hand: KG of the lightship by its share, mass by how far KG is from the lightship', () => {
  // KG 1.8; u = hypot(40 / 50 x 0.02, 0.4 x (2 - 1.8) / 50)
  const kg = conditionKg(loaded(0.02, 0.4))!;
  expect(kg.value).toBeCloseTo(1.8, 12);
  expect(kg.standardUncertainty).toBeCloseTo(Math.hypot(0.016, 0.0016), 6);
  expect(conditionKg(loaded(undefined, 0.4))).toBeNull();
});

test('the upper end of 95 % by Student, one-sided: 1.943180 with six degrees of freedom', () => {
  const kg = conditionKg(loaded(0.02, 0))!;
  expect(upperKg95M(kg)).toBeCloseTo(1.8 + 1.94318 * 0.016, 6);
  expect(upperKg95M(conditionKg(loaded(0, 0))!)).toBe(conditionKg(loaded(0, 0))!.value);
});
