import { describe, expect, it } from 'vitest';
import { sineBarAngle } from '#core/calibration/sine-bar.ts';

const bar = (lengthMm: number, heightUncertaintyMm = 0.01) => ({
  number: 'B1',
  lengthMm,
  lengthUncertaintyMm: 0,
  heightUncertaintyMm,
});

describe('the sine bar', () => {
  // Height = length times sine, computed to ten digits with a general calculator.
  it.each([
    [200, 1.7453070996747868, 0.5],
    [500, 8.726203218641757, 1],
    [1000, 34.89949670250097, 2],
    [1000, 69.75647374412529, 4],
    [100, -5.233595624294383, -3],
  ])('of %d mm at %d mm stands at %d degrees', (lengthMm, heightMm, angleDeg) => {
    expect(sineBarAngle(bar(lengthMm), heightMm).angleDeg).toBeCloseTo(angleDeg, 10);
  });

  it('states u(angle)^2 = (u_h / (L cos))^2 + (tan u_L / L)^2', () => {
    const found = sineBarAngle(
      { number: 'B1', lengthMm: 500, lengthUncertaintyMm: 0.2, heightUncertaintyMm: 0.02 },
      500 * Math.sin((3 * Math.PI) / 180),
    );
    const angle = (3 * Math.PI) / 180;
    const expected = Math.hypot(0.02 / (500 * Math.cos(angle)), (Math.tan(angle) * 0.2) / 500);
    expect(found.angleUncertaintyDeg).toBeCloseTo((expected * 180) / Math.PI, 12);
    expect(found.commonUncertaintyShare).toBeCloseTo(4e-4, 15);
    // 0.0023 degree for 0.02 mm on 500 mm near level.
    expect(sineBarAngle(bar(500, 0.02), 0).angleUncertaintyDeg).toBeCloseTo(0.0023, 4);
  });

  it('refuses a height beyond the bar, and a bar of no length', () => {
    expect(() => sineBarAngle(bar(100), 100)).toThrow(/input-range/);
    expect(() => sineBarAngle(bar(0), 0)).toThrow(/input-range/);
    expect(() => sineBarAngle(bar(100), Number.NaN)).toThrow(/input-not-finite/);
  });
});
