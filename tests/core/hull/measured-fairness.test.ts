import { expect, it } from 'vitest';
import { hullFromMeasuredPoints } from '#core/hull/measured-points.ts';
import { measuredWigley } from './measured-wigley.ts';

it('finds the spread of the tape, within a third', () => {
  for (const sides of ['starboard', 'both'] as const) {
    const { fairness } = hullFromMeasuredPoints(measuredWigley({ sides, noiseM: 0.004 }));
    expect(fairness.pointUncertaintyM).toBeGreaterThan(0.004 * 0.66);
    expect(fairness.pointUncertaintyM).toBeLessThan(0.004 * 1.5);
  }
});

it('names the one point that was read wrongly, by where it was written down', () => {
  for (const sides of ['starboard', 'both'] as const) {
    const points = measuredWigley({ sides, noiseM: 0.001 });
    const wrong = points.findIndex((one) => one.yM > 1 && one.zM < 1.2);
    const misread = points.map((one, k) => (k === wrong ? { ...one, yM: one.yM + 0.1 } : one));
    const { outliers } = hullFromMeasuredPoints(misread).fairness;
    expect(outliers[0]!.point.where).toBe(points[wrong]!.where);
    expect(outliers[0]!.alongM ?? outliers[0]!.acrossM).toBeGreaterThan(0.05);
  }
});
