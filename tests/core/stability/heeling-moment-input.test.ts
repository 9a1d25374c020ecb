import { expect, test } from 'vitest';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import { heelingMomentFrom, heelingMomentInput } from '#core/stability/heeling-moment-input.ts';

const written = (more: object) =>
  heelingMomentInput.parse({ kind: 'lifting', words: 'a load', ...more });

test('upright moment with a power of the cosine, or points with straight lines between', () => {
  const cosine = heelingMomentFrom(written({ uprightTM: 2, cosinePower: 1 }));
  expect(cosine.momentTM(radiansFromDegrees(60))).toBeCloseTo(1, 12);
  expect(heelingMomentFrom(written({ uprightTM: 2 })).momentTM(1)).toBe(2);
  const points = [
    { heelDeg: 0, momentTM: 4 },
    { heelDeg: 20, momentTM: 2 },
    { heelDeg: 40, momentTM: 1 },
  ];
  const table = heelingMomentFrom(written({ points }));
  for (const [deg, expected] of [
    [0, 4],
    [10, 3],
    [25, 1.75],
    [80, 1],
  ] as const) {
    expect(table.momentTM(radiansFromDegrees(deg))).toBeCloseTo(expected, 9);
  }
});

test('a heel that was read goes with it; neither or both ways of a moment are refused', () => {
  const measured = { heelDeg: 6, leastFreeboardM: 0.4 };
  const read = heelingMomentFrom(written({ uprightTM: 1, measured }));
  expect(read.measured!.heelRad).toBeCloseTo(radiansFromDegrees(6), 12);
  expect(() => written({})).toThrow(/uprightTM/);
  const points = [
    { heelDeg: 10, momentTM: 1 },
    { heelDeg: 5, momentTM: 1 },
  ];
  expect(() => written({ points })).toThrow(/order of heel/);
  expect(() => written({ points: points.reverse(), uprightTM: 1 })).toThrow(/uprightTM/);
});
