import { expect, test } from 'vitest';
import { hullAfloat } from '#core/flotation/hull-afloat.ts';
import { exactHullOf, floatOfTest } from '#core/reduction/test-float.ts';
import { BOX_HULL, BOX_LENGTH_M } from '#tests/core/flotation/box-hull.ts';
import { FUEL, floatedTest } from '#tests/core/reduction/a-floated-test.ts';

const hull = hullAfloat(BOX_HULL, BOX_LENGTH_M);

test('displacement, KM, c2 and their common causes go into the test', () => {
  const float = floatOfTest(floatedTest(), hull)!;
  expect(float.test.displacement!.value).toBeCloseTo(184.5, 6);
  expect(float.test.km!.value).toBeCloseTo(2.75, 6);
  expect(float.test.metacentreMovement!.value).toBeCloseTo(1, 5);
  expect(new Set(float.test.together!.map((one) => one.cause))).toEqual(
    new Set([
      'freeboards and draughts as read',
      'datum of the freeboards',
      'water density',
      'volume of the hull',
    ]),
  );
});

test('a sounding is the volume at the list and trim she had', () => {
  const written = floatedTest();
  const at = { xM: 6, yM: 0, zM: 0.2, depthM: 0.5 };
  const sounded = {
    ...written,
    liquids: { tanks: [{ tank: 'fuel', densityTM3: 0.85, shape: FUEL, sounding: at }] },
  };
  expect(floatOfTest(sounded, hull)!.liquids[0]!.volumeM3).toBeCloseTo(8, 3);
});

test('a test that gives its displacement has no float', () => {
  const { waterline: _, ...bare } = floatedTest();
  expect(floatOfTest(bare, hull)).toBeNull();
  expect(floatOfTest(floatedTest(), null)).toBeNull();
});

test('weights moved forward trim each state, and much of it is said', () => {
  const written = floatedTest();
  const float = floatOfTest(written, hull)!;
  const { hull: exact, advice } = exactHullOf(written, hull, float, [0, 20, 40])!;
  // GM longitudinal of the box 22.97 m
  expect(exact.trimSlopes[2]! - exact.trimSlopes[0]!).toBeCloseTo(
    -40 / (184.5 * (400 / 18 - 2)),
    6,
  );
  expect(advice.map((one) => one.code)).toEqual(['trim-changed']);
  expect(exactHullOf(written, hull, float, [0, 0.1])!.advice).toEqual([]);
  expect(exactHullOf(written, { ...hull, knOf: null }, float, [0, 0])).toBeNull();
});
