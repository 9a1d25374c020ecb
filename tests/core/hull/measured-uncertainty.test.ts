import { expect, it } from 'vitest';
import { hydrostaticsAt } from '#core/hull/hydrostatics.ts';
import { hullFromOffsets } from '#core/hull/make-hull.ts';
import { hullFromMeasuredPoints } from '#core/hull/measured-points.ts';
import { measuredHullUncertainty } from '#core/hull/measured-uncertainty.ts';
import { checkedOffsets } from '#core/hull/offsets.ts';
import { waterlineAtDraught } from '#core/hull/waterline.ts';
import { measuredWigley } from './measured-wigley.ts';

const afloat = waterlineAtDraught(1.4);
const parts = { name: 'measured', offsetsAre: 'outside' } as const;
const uncertainty = (sides: 'starboard' | 'both', pointM: number, seed = 5) =>
  measuredHullUncertainty(
    measuredWigley({ sides, noiseM: pointM, seed }),
    parts,
    afloat,
    1.025,
    pointM,
  );

it('says from one taping how much displacement and KM scatter when it is done again', () => {
  const said = uncertainty('starboard', 0.004);
  const taped = Array.from({ length: 40 }, (_, seed) => {
    const points = measuredWigley({ sides: 'starboard', noiseM: 0.004, seed });
    const { stations } = hullFromMeasuredPoints(points);
    const hull = hullFromOffsets(checkedOffsets(stations, 'measured'), parts);
    return hydrostaticsAt(hull, afloat, 1.025);
  });
  const spread = (values: readonly number[]) => {
    const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
    return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (values.length - 1));
  };
  // Two spreads from sixty and forty draws agree within two fifths nearly always.
  const tonnes =
    said.displacementT.standardUncertainty / spread(taped.map((one) => one.displacementT));
  const km = said.kmM.standardUncertainty / spread(taped.map((one) => one.kmTransverseM));
  for (const ratio of [tonnes, km]) {
    expect(ratio).toBeGreaterThan(0.6);
    expect(ratio).toBeLessThan(1.67);
  }
});

it('is less from two sides than from one, and grows with the tape', () => {
  const one = uncertainty('starboard', 0.002).displacementT.standardUncertainty;
  expect(uncertainty('both', 0.002).displacementT.standardUncertainty).toBeLessThan(one);
  expect(uncertainty('starboard', 0.006).displacementT.standardUncertainty).toBeGreaterThan(
    2 * one,
  );
});

it('says that a hull measured broader is heavier and has another KM at once', () => {
  const { correlation } = uncertainty('starboard', 0.004);
  expect(Math.abs(correlation)).toBeLessThanOrEqual(1);
  expect(Math.abs(correlation)).toBeGreaterThan(0.05);
});
