import { expect, test } from 'vitest';
import { hullEvidenceAt } from '#core/hull/hull-evidence.ts';
import { hullFromOffsets } from '#core/hull/make-hull.ts';
import { hullFromMeasuredPoints } from '#core/hull/measured-points.ts';
import { checkedOffsets } from '#core/hull/offsets.ts';
import { waterlineFromDraughts } from '#core/hull/waterline.ts';

const points = [0, 4, 8, 12, 16, 20].flatMap((xM) =>
  [0, 0.5, 1, 1.5, 2, 2.5, 3].map((zM) => ({ xM, yM: zM, zM, where: `x ${xM} z ${zM}` })),
);
const made = hullFromMeasuredPoints(points);
const parts = { name: 'wedge', offsetsAre: 'outside' as const };
const hull = hullFromOffsets(checkedOffsets(made.stations, 'wedge'), parts);
const line = waterlineFromDraughts({ xM: 0, draughtM: 1.5 }, { xM: 20, draughtM: 1.5 }, 0);

test('without points and spot checks nothing is claimed', () => {
  expect(hullEvidenceAt(hull, line, 1, { points: null, spots: null })).toEqual({
    causes: [],
    measured: null,
    differences: [],
  });
});

test('fair points are still no better than a tape', () => {
  const { measured, causes } = hullEvidenceAt(hull, line, 1, {
    points: { measured: points, made },
    spots: null,
  });
  expect(measured).toMatchObject({ pointUncertaintyM: 0.002, outliers: [] });
  expect(causes.map((one) => one.cause)).toEqual(['points measured off the hull']);
  // 2 mm on each point of 6 sections moves 45 t by less than 0.3 t and by something
  expect(causes[0]!.displacementT).toBeGreaterThan(0.01);
  expect(causes[0]!.displacementT).toBeLessThan(0.3);
});
