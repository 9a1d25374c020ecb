import { expect, test } from 'vitest';
import {
  checkAllFinite,
  checkEqualLength,
  checkFinite,
  checkPositive,
  checkRange,
} from '#core/quantity/check.ts';

test('what holds comes back as it is', () => {
  expect([checkFinite(-1, 'x'), checkPositive(2, 'x'), checkRange(3, 3, 4, 'x')]).toEqual([
    -1, 2, 3,
  ]);
  expect(() => checkEqualLength([1], ['a'], 'x')).not.toThrow();
});

test('what does not is a fault that names its place and value', () => {
  expect(() => checkAllFinite([1, Number.NaN], 'heels')).toThrow(
    /input-not-finite.*heels\[1\]: NaN/,
  );
  expect(() => checkPositive(0, 'mass')).toThrow(/input-range.*mass: 0 is not above zero/);
  expect(() => checkPositive(Number.POSITIVE_INFINITY, 'mass')).toThrow(/input-not-finite/);
  expect(() => checkRange(5, 3, 4, 'x')).toThrow(/input-range.*5 is not within 3 to 4/);
  expect(() => checkEqualLength([1], [], 'columns')).toThrow(/input-unequal-length.*1 beside 0/);
});
