import { describe, expect, it } from 'vitest';
import {
  restingDifferenceMm,
  type TubeGeometry,
  type TubeState,
  tubeAfterStep,
  tubeDynamics,
  tubeSlowTimeS,
} from '#device/emulated/water-tube.ts';

const tube = (legMm: number, boreMm: number, lengthM: number, fillM: number): TubeGeometry => ({
  legBoreM: legMm / 1000,
  tubeBoreM: boreMm / 1000,
  tubeLengthM: lengthM,
  legFillM: fillM,
  spanM: 8,
  heightOverRollAxisM: 0,
});

describe('the water tube', () => {
  it('swings as laminar theory says', () => {
    // Calculated with nu 1e-6 m2/s: legs, bore, length, fill; period, damping ratio, time constant.
    const rows: [TubeGeometry, number, number, number][] = [
      [tube(10, 10, 8, 1), 4.5, 0.11, 6.2],
      [tube(25, 8, 8, 0.5), 12.6, 0.5, 4.0],
      [tube(25, 6, 8, 0.5), 16.8, 1.18, 4.9],
      [tube(25, 6, 12, 0.5), 20.5, 1.45, 8.2],
      [tube(25, 4, 8, 0.5), 25.1, 4.0, 31],
    ];
    for (const [geometry, periodS, dampingRatio, slowS] of rows) {
      const dynamics = tubeDynamics(geometry);
      expect(Math.abs(dynamics.periodS / periodS - 1)).toBeLessThan(0.012);
      expect(Math.abs(dynamics.dampingRatio / dampingRatio - 1)).toBeLessThan(0.05);
      expect(Math.abs(tubeSlowTimeS(geometry) / slowS - 1)).toBeLessThan(0.05);
    }
  });

  it('holds a steady heel as span times tangent, and a 6 s roll at a ninth', () => {
    const geometry = tube(25, 6, 8, 0.5);
    const dynamics = tubeDynamics(geometry);
    const heelRad = (2 * Math.PI) / 180;
    expect(restingDifferenceMm(geometry, heelRad)).toBeCloseTo(279.4, 1);
    const stepS = 0.02;
    const run = (driveMm: (timeS: number) => number, untilS: number) => {
      let state: TubeState = { differenceMm: 0, rateMmS: 0 };
      let most = 0;
      for (let step = 0; step * stepS < untilS; step++) {
        const drive = {
          beforeMm: driveMm(step * stepS),
          afterMm: driveMm((step + 1) * stepS),
        };
        state = tubeAfterStep(dynamics, state, drive, stepS);
        if (step * stepS > untilS - 12) most = Math.max(most, state.differenceMm);
      }
      return { last: state.differenceMm, most };
    };
    // After seven time constants a thousandth is left.
    const settled = run(() => 100, 7 * tubeSlowTimeS(geometry));
    expect(settled.last).toBeGreaterThan(99.7);
    expect(settled.last).toBeLessThan(100);
    const rolling = run((timeS) => 100 * Math.sin((2 * Math.PI * timeS) / 6), 120);
    expect(rolling.most / 100).toBeGreaterThan(0.1);
    expect(rolling.most / 100).toBeLessThan(0.12);
  });
});
