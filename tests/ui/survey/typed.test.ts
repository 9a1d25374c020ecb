import fc from 'fast-check';
import { expect, it } from 'vitest';
import { metresOf, numberOf } from '#ui/survey/typed.ts';

it('a number with comma, point or true minus, and nothing else', () => {
  expect(['1,5', ' 0.84 ', '\u22122.10', '-.5', '+3', '7.'].map(numberOf)).toEqual([
    1.5, 0.84, -2.1, -0.5, 3, 7,
  ]);
  for (const none of ['', '1 000', '1e3', '5 %', '1,000.5', 'NaN', 'Infinity', '0x10', '--1'])
    expect(numberOf(none), none).toBeNull();
});

it('a length is in metres unless its unit stands behind it', () => {
  expect(metresOf('1,25')).toBe(1.25);
  expect(metresOf('1250 mm')).toBe(1.25);
  expect(metresOf('60 cm')).toBe(0.6);
  expect(metresOf('1 ft')).toBeCloseTo(0.3048, 15);
  for (const none of ['', '1.2 t', 'deep', '1 2']) expect(metresOf(none), none).toBeNull();
});

it('keeps every digit of what is typed', () => {
  fc.assert(
    fc.property(fc.double({ min: -500, max: 500, noNaN: true }), (value) => {
      const text = value.toFixed(6);
      expect(numberOf(text)).toBe(Number(text));
      expect(numberOf(text.replace('-', '\u2212').replace('.', ','))).toBe(Number(text));
    }),
  );
});
