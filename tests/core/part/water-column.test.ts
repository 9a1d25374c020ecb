import { expect, test } from 'vitest';
import { heightMmOfPressure, pressurePaOfHeight } from '#core/part/water-column.ts';

test('a millimetre of fresh water at 20 C is 9.789 Pa (Tanaka)', () => {
  expect(pressurePaOfHeight(1)).toBeCloseTo(9.789, 3);
  expect(heightMmOfPressure(pressurePaOfHeight(123, 1025), 1025)).toBeCloseTo(123, 12);
});
