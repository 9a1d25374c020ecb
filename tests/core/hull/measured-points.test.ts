import { describe, expect, it } from 'vitest';
import { gridFromCsv } from '#core/hull/grid.ts';
import { immersed } from '#core/hull/hull.ts';
import { hullFromOffsets } from '#core/hull/make-hull.ts';
import { hullFromMeasuredPoints, measuredPointsFromGrid } from '#core/hull/measured-points.ts';
import { checkedOffsets } from '#core/hull/offsets.ts';
import { waterlineAtDraught } from '#core/hull/waterline.ts';
import { measuredWigley } from './measured-wigley.ts';

const volumeOf = (measured: ReturnType<typeof hullFromMeasuredPoints>) => {
  const table = checkedOffsets(measured.stations, 'measured');
  const hull = hullFromOffsets(table, { name: 'measured', offsetsAre: 'outside' });
  return immersed(hull, waterlineAtDraught(1.5)).volumeM3;
};
/** The taped length runs from 0.4 to 15.6 m: 2/3 T B times the integral of 1 - (x/8 - 1)2. */
const exactM3 = 3.2 * 8 * (1.9 - (2 * 0.95 ** 3) / 3);

describe('points measured ashore', () => {
  it('makes the hull of points in any order, from one side or from both', () => {
    for (const sides of ['starboard', 'port', 'both'] as const) {
      const measured = hullFromMeasuredPoints(measuredWigley({ sides }));
      expect(measured.stations).toHaveLength(11);
      expect(Math.abs(volumeOf(measured) / exactM3 - 1)).toBeLessThan(0.002);
      expect(measured.fairness.outliers).toEqual([]);
    }
  });

  it('finds how far the tape lay off the centre plane, and takes it out', () => {
    const measured = hullFromMeasuredPoints(measuredWigley({ sides: 'both', offM: 0.03 }));
    const midships = measured.sections[5]!;
    expect(midships.centreOffM).toBeCloseTo(0.03, 3);
    expect(midships.halvesDifferM).toBeLessThan(0.002);
    expect(Math.abs(volumeOf(measured) / exactM3 - 1)).toBeLessThan(0.002);
  });

  it('refuses halves that are of two hulls, and a section of two points', () => {
    const apart = measuredWigley({ sides: 'both' }).map((one) =>
      one.yM < 0 ? { ...one, yM: one.yM - 1 } : one,
    );
    expect(() => hullFromMeasuredPoints(apart)).toThrow('hull-asymmetric');
    const whole = measuredWigley({ sides: 'starboard' });
    const first = whole.filter((one) => one.xM === 0.4).slice(0, 2);
    expect(() =>
      hullFromMeasuredPoints([...whole.filter((one) => one.xM !== 0.4), ...first]),
    ).toThrow('input-too-few');
  });

  it('reads a table of them with rows and columns for what is wrong', () => {
    const read = (text: string) => measuredPointsFromGrid(gridFromCsv('ashore.csv', text));
    expect(read('xM;yM;zM\n0;-1,2;0,4\n')[0]).toEqual({
      xM: 0,
      yM: -1.2,
      zM: 0.4,
      where: 'ashore.csv: row 2, column yM',
    });
    expect(() => read('xM,yM,zM\n0,wet,1\n')).toThrow('row 2, column yM');
  });
});
