import { expect, test } from 'vitest';
import {
  fixedWords,
  measuredWords,
  significantWords,
  tableWords,
} from '#receiver/commands/figure.ts';

test('the half width shows two digits, the value stops at the same place', () => {
  expect(measuredWords(0.552742, 0.001307, 'm')).toBe('0.5527 ± 0.0013 m');
  expect(measuredWords(208494.9, 2632.4, 't·m')).toBe('208495 ± 2632 t·m');
  expect(measuredWords(4.79628e-6, 6.05e-8, '1/(t·m)')).toBe('(4.796 ± 0.061) × 10^-6 1/(t·m)');
  expect(measuredWords(1.5, 0, 'm')).toBe('1.5 m, no uncertainty known');
});

test('no minus stands before zero', () => {
  expect(fixedWords(-0.00001, 4)).toBe('0.0000');
  expect(fixedWords(-0.5, 1)).toBe('-0.5');
});

test('columns stand under each other', () => {
  expect(
    tableWords([
      ['a', '1'],
      ['bcd', '22'],
    ]),
  ).toEqual(['a     1', 'bcd  22']);
  expect(significantWords(1234.567, 3)).toBe('1230');
});
