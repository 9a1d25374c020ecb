import { expect, test } from 'vitest';
import { safetyOfGm, safetyOfHeel } from '#core/shift/safety.ts';

const heel = { firstDeg: 0.2, predictedDeg: 1.2, seenDeg: 1.25, standardErrorDeg: 0.01 };

test('a heel as predicted is no reason to stop', () => {
  expect(safetyOfHeel(heel)).toEqual([]);
});

test('half as much again as predicted stops, to either side and with a list', () => {
  const stop = safetyOfHeel({ ...heel, seenDeg: 1.85 });
  expect(stop[0]!.stop).toBe(true);
  expect(stop[0]!.words).toContain('1.65 deg where 1.00 deg');
  const port = { firstDeg: -0.2, predictedDeg: -1.2, seenDeg: -1.85, standardErrorDeg: 0.01 };
  expect(safetyOfHeel(port)[0]!.stop).toBe(true);
});

test('a zero that does not return stops; one that returns within scatter does not', () => {
  const back = { firstDeg: 0.2, predictedDeg: 0.21, seenDeg: 0.26, standardErrorDeg: 0.01 };
  expect(safetyOfHeel(back)).toEqual([]);
  expect(safetyOfHeel({ ...back, seenDeg: 0.6 })[0]!.words).toContain('zero does not return');
});

test('a GM under 0.15 m stops, one that may be under it is said', () => {
  expect(safetyOfGm(0.14, 0.01)[0]!.stop).toBe(true);
  expect(safetyOfGm(0.2, 0.08)[0]!.stop).toBe(false);
  expect(safetyOfGm(0.9, 0.02)).toEqual([]);
});
