import { expect, it } from 'vitest';
import { deflectionFromHandRead } from '#core/reading/deflection.ts';
import { readersCompared } from '#core/reading/two-readers.ts';

const readAt = (...extremesMm: number[]) =>
  deflectionFromHandRead({ kind: 'pendulum', lengthMm: 3000, extremesMm });

it('two who read the same swing to the millimetre agree', () => {
  const compared = readersCompared(readAt(112, 88, 110, 90, 109), readAt(111, 88, 111, 89, 109));
  expect(compared.agree).toBe(true);
  expect(Math.abs(compared.differenceDeg)).toBeLessThan(0.01);
});

it('one who reads five millimetres beside the other does not', () => {
  const compared = readersCompared(readAt(100), readAt(105));
  expect(compared.agree).toBe(false);
  // 5 mm on 3 m is 0.0954 degree, at this heel a thousandth less.
  expect(compared.differenceDeg).toBeCloseTo(0.0953, 3);
  // Half a millimetre evenly, of each: 0.289 mm, together 0.408.
  expect(compared.standardErrorDeg).toBeCloseTo((0.408 / 3000) * (180 / Math.PI), 4);
});

it('is the same with the readers changed, but for the sign', () => {
  const [a, b] = [readAt(120, 80, 118, 84), readAt(101)];
  expect(readersCompared(b, a)).toMatchObject({
    differenceDeg: -readersCompared(a, b).differenceDeg,
    agree: readersCompared(a, b).agree,
  });
});
