import { expect, it } from 'vitest';
import { waitingWords } from '#ui/shifts/waiting.ts';

it('says what another minute buys, of all that makes KG uncertain together', () => {
  const target = { standardErrorDeg: 0.01, restM: 0.003, mPerDeg: 0.4, missingDeg: 0 };
  // sqrt(3^2 + 4^2) = 5 mm now, sqrt(3^2 + 2^2) = 3.6 mm in a minute.
  expect(waitingWords(target, 0.01, 0.005, 'KG')).toBe('another minute buys 1.4 mm of KG');
  expect(waitingWords(target, 0.001, 0.00099, 'GM')).toBe(
    'another minute buys less than 0.1 mm of GM',
  );
  expect(waitingWords(null, 0.01, 0.005, 'KG')).toBeNull();
  expect(waitingWords(target, null, null, 'KG')).toBeNull();
});
