import { expect, test } from 'vitest';
import { metacentreMovementM, rightingFrom } from '#core/flotation/righting.ts';
import { BOX, ELLIPSE } from '#tests/core/reduction/closed-hulls.ts';

const none = () => 0;

test.each([
  ['box', BOX],
  ['ellipse', ELLIPSE],
])('%s: KM is the slope of KN, and c2 the first bend', (_name, hull) => {
  const righting = rightingFrom(hull.kn, none);
  expect(righting.metacentreM).toBeCloseTo(hull.km, 8);
  // what is left is of the seventh power: c2 itself to a few parts of a thousand
  expect(metacentreMovementM(righting) / hull.c2).toBeCloseTo(1, 2);
});

test('a lever that is not a number is a fault with its heel', () => {
  expect(() => rightingFrom(() => Number.NaN, none)).toThrow(/input-not-finite.*righting lever/);
});
