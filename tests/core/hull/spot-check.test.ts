import { describe, expect, it } from 'vitest';
import { halfBreadthAtM, spotCheck } from '#core/hull/spot-check.ts';
import { waterlineAtDraught } from '#core/hull/waterline.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { prism } from './hulls.ts';

const box = prism(20, 5, [
  [0, 0],
  [3, 0],
  [3, 3],
]);
const afloat = waterlineAtDraught(1.5);
const at = (xM: number, beamM: number, keelM = 0) => ({
  xM,
  beam: { zM: 1.5, beamM },
  depthM: 3,
  keelM,
});

describe('spot checks of the lines plan', () => {
  it('finds a boat as planned to be so', () => {
    const check = spotCheck(box, afloat, 1.025, [at(2, 6), at(10, 6), at(18, 6)]);
    expect(check.doubtful).toEqual([]);
    for (const one of [...check.displacementT, ...check.kmM]) {
      expect(one.standardUncertainty).toBeCloseTo(0, 9);
    }
  });

  it('carries a beam one part in 300 too broad into displacement and KM', () => {
    const check = spotCheck(box, afloat, 1.025, [at(2, 6.02), at(10, 6.02), at(18, 6.02)]);
    expect(check.displacementT[0]!.standardUncertainty).toBeCloseTo(184.5 / 300, 9);
    // BM grows by twice the share of the beam.
    expect(check.kmM[0]!.standardUncertainty).toBeCloseTo((2 * 2) / 300, 9);
    expect(check.displacementT[0]!.degreesOfFreedom).toBe(2);
    expect(check.doubtful).toEqual([]);
  });

  it('carries a keel lower than planned as draught, and names what no tape explains', () => {
    const low = [at(2, 6, -0.03), at(10, 6, -0.03), at(18, 6.1, -0.03)];
    const check = spotCheck(box, afloat, 1.025, low);
    const keel = check.displacementT.find((one) => one.cause.includes('keel'))!;
    expect(keel.standardUncertainty).toBeCloseTo(0.03 * 123, 6);
    expect(check.doubtful.map((one) => [one.kind, one.xM])).toEqual([
      ['keel', 2],
      ['keel', 10],
      ['beam', 18],
      ['keel', 18],
    ]);
  });

  it('takes marks and sheer, and refuses too few stations or one off the hull', () => {
    const mark = (xM: number) => ({ xM, sheerM: 3.01, mark: { readsM: 1, measuredM: 1.005 } });
    const check = spotCheck(box, afloat, 1.025, [mark(1), mark(9), mark(19)]);
    expect(check.differences.filter((one) => one.kind === 'mark')[0]!.differenceM).toBeCloseTo(
      0.005,
      12,
    );
    expect(check.displacementT).toHaveLength(2);
    expect(() => spotCheck(box, afloat, 1.025, [mark(1), mark(9)])).toThrow('input-too-few');
    expect(() => spotCheck(box, afloat, 1.025, [mark(1), mark(9), mark(30)])).toThrow(
      'input-range',
    );
    expect(() => halfBreadthAtM(box, 10, 5)).toThrow('input-range');
  });

  it('reads the half-breadth of a round or chined side', () => {
    expect(halfBreadthAtM(box, 7, 1.5)).toBeCloseTo(3, 12);
    // The offsets give 2.268 at the chine of x 7, z 0.909, and the shell lies outside them.
    expect(halfBreadthAtM(marramHull(), 7, 0.92)).toBeGreaterThan(2.268);
    expect(halfBreadthAtM(marramHull(), 7, 0.92)).toBeLessThan(2.285);
  });
});
