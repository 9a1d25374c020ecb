import { expect, test } from 'vitest';
import { numbersOf } from '#receiver/commands/numbers.ts';

test('numbers parted by commas, or none at all', () => {
  expect(numbersOf('1,-2.5,3e1', 3)).toEqual([1, -2.5, 30]);
  for (const wrong of ['', '1,', 'one', '1;2', 'Infinity', '1,2,3,4']) {
    expect(numbersOf(wrong, 3)).toBeUndefined();
  }
  expect(numbersOf(undefined, 3)).toBeUndefined();
});
