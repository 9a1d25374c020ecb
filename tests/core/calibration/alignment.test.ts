import { describe, expect, it } from 'vitest';
import {
  alignmentFromDistances,
  alignmentFromSecondAxis,
  alignmentOfYaw,
} from '#core/calibration/alignment.ts';

describe('alignment to the centreline', () => {
  // 1 - cos of the angle, from any table of cosines.
  it.each([
    [1, 0.00015],
    [2, 0.00061],
    [3, 0.00137],
    [5, 0.00381],
    [10, 0.01519],
  ])('a yaw of %d degrees loses %d of the heel', (yawDeg, lost) => {
    expect(alignmentOfYaw(yawDeg, 0).heelLostShare).toBeCloseTo(lost, 5);
  });

  it('comes from two distances to a transverse frame', () => {
    const found = alignmentFromDistances(100, 100 + 200 * Math.tan(Math.PI / 90), 200, 0.5);
    expect(found.yawDeg).toBeCloseTo(2, 10);
    expect(found.yawUncertaintyDeg).toBeCloseTo(0.2, 2);
    // A trim change of 0.05 degree shows as 0.0017.
    expect(found.heelPerTrimDeg * 0.05).toBeCloseTo(0.0017, 4);
    expect(() => alignmentFromDistances(0, 300, 200, 1)).toThrow(/input-range/);
  });

  it('comes from the second axis while she heels', () => {
    const yawRad = (1.5 * Math.PI) / 180;
    const heels = [-2, -1, 0, 1, 2];
    const found = alignmentFromSecondAxis(
      heels.map((heel) => heel * Math.cos(yawRad)),
      heels.map((heel) => 0.4 - heel * Math.sin(yawRad)),
    );
    expect(found.yawDeg).toBeCloseTo(1.5, 10);
    expect(() => alignmentFromSecondAxis([1, 1, 1], [0, 0, 0])).toThrow(/line-not-determined/);
    expect(() => alignmentFromSecondAxis([1, 2], [0, 0])).toThrow(/input-too-few/);
  });
});
