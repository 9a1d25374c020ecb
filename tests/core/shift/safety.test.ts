import { expect, test } from 'vitest';
import { safetyOfGm, safetyOfHeel } from '#core/shift/safety.ts';

const heel = { firstDeg: 0.2, predictedDeg: 1.2, seenDeg: 1.25, standardErrorDeg: 0.01 };

test('a heel as predicted is no reason to stop', () => {
  expect(safetyOfHeel(heel)).toEqual([]);
});

test('half as much again as predicted stops, to either side and with a list', () => {
  const stop = safetyOfHeel({ ...heel, seenDeg: 1.85 });
  expect(stop).toEqual([
    {
      code: 'heeled-beyond-prediction',
      stop: true,
      seenDeg: expect.closeTo(1.65, 12),
      predictedDeg: expect.closeTo(1, 12),
    },
  ]);
  const port = { firstDeg: -0.2, predictedDeg: -1.2, seenDeg: -1.85, standardErrorDeg: 0.01 };
  expect(safetyOfHeel(port)[0]!.stop).toBe(true);
});

test('a zero that does not return stops; one that returns within scatter does not', () => {
  const back = { firstDeg: 0.2, predictedDeg: 0.21, seenDeg: 0.26, standardErrorDeg: 0.01 };
  expect(safetyOfHeel(back)).toEqual([]);
  expect(safetyOfHeel({ ...back, seenDeg: 0.6 })).toEqual([
    { code: 'zero-not-returned', stop: true, leftDeg: expect.closeTo(0.4, 12) },
  ]);
});

test('a GM under 0.15 m stops, one that may be under it is said', () => {
  const least = { leastGmM: 0.15 };
  expect(safetyOfGm(0.14, 0.01)).toEqual([
    { code: 'gm-too-small', stop: true, gmM: 0.14, halfWidth95M: 0.01, ...least },
  ]);
  expect(safetyOfGm(0.2, 0.08)).toEqual([
    { code: 'gm-not-shown-enough', stop: false, gmM: 0.2, halfWidth95M: 0.08, ...least },
  ]);
  expect(safetyOfGm(0.9, 0.02)).toEqual([]);
});
