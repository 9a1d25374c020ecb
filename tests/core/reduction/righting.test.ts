import { expect, test } from 'vitest';
import { rightingFrom } from '#core/reduction/righting.ts';
import { BOX, ELLIPSE } from '#tests/core/reduction/closed-hulls.ts';

const none = () => 0;

test.each([
  ['box', BOX],
  ['ellipse', ELLIPSE],
])('%s: KM is the slope of KN, and c2 the first bend', (_name, hull) => {
  const { metacentreM, excessM } = rightingFrom(hull.kn, none);
  expect(metacentreM).toBeCloseTo(hull.km, 8);
  const t = 0.02;
  expect(excessM(t) / t ** 3 / hull.c2).toBeCloseTo(1, 2);
});

test('a lever that is not a number is a fault with its heel', () => {
  expect(() => rightingFrom(() => Number.NaN, none)).toThrow(/input-not-finite.*righting lever/);
});
