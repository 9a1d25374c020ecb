import { expect, test } from 'vitest';
import { hullAfloat } from '#core/flotation/hull-afloat.ts';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import type { TestInput } from '#core/reduction/test-input.ts';
import { BOX_HULL, BOX_LENGTH_M } from '#tests/core/flotation/box-hull.ts';
import { floatedTest } from '#tests/core/reduction/a-floated-test.ts';

const hull = hullAfloat(BOX_HULL, BOX_LENGTH_M);
const SURVEY: TestInput['survey'] = {
  items: [
    {
      item: 'A',
      kind: 'test-weight',
      massT: 2,
      massUncertaintyT: 0.001,
      at: { xM: 10, yM: 0, zM: 3 },
      placeUncertaintyM: 0.01,
      photographLine: 12,
    },
  ],
};

// On paper: 184.5 t at KG 2, less 6.8 t of fuel at z .4 (8 m3 of .85, 4 x 4 m wide), less the weight.
test('the lightship without the fuel and the test weight', () => {
  const { lightship, advice } = reduceTest({ ...floatedTest(2), survey: SURVEY }, hull);
  const mass = 184.5 - 6.8 - 2;
  expect(lightship!.mass.value).toBeCloseTo(mass, 6);
  expect(lightship!.vcg.value).toBeCloseTo((184.5 * 2 - 6.8 * 0.45 - 2 * 3) / mass, 5);
  expect(lightship!.lcg.value).toBeCloseTo((184.5 * 10 - 6.8 * 6 - 2 * 10) / mass, 6);
  expect(lightship!.asInclined.vcg).toBeCloseTo(2, 6);
  expect(lightship!.provisional).toBe(true);
  expect(advice.map((one) => one.code)).toContain('lightship-not-agreed');
  expect(lightship!.mass.standardUncertainty).toBeGreaterThan(0.3);
});

test('fuel the sheet leaves in stays in', () => {
  const kept = { ...floatedTest(2), survey: SURVEY };
  kept.liquids!.tanks[0]!.partOfLightship = true;
  expect(reduceTest(kept, hull).lightship!.mass.value).toBeCloseTo(184.5 - 2, 6);
});

test('by a table without KN the free surface is taken off upright: the same to the bend of the line', () => {
  const table = { ...hull, knOf: null };
  const { lightship } = reduceTest({ ...floatedTest(2), survey: SURVEY }, table);
  expect(Math.abs(lightship!.asInclined.vcg - 2)).toBeLessThan(0.002);
});

test('without a survey there is no lightship; a survey without a float is refused at the door', () => {
  expect(reduceTest(floatedTest(2), hull).lightship).toBeNull();
});
