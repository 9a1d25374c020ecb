import { describe, expect, it } from 'vitest';
import { gmByRoll, rollBesideInclining, tableShareOfGm } from '#core/reduction/roll-gm.ts';

const period = { value: 5, standardUncertainty: 0.01, degreesOfFreedom: Number.POSITIVE_INFINITY };
const table = { f: 0.8, fHalfWidth: 0.05, source: 'table' };
const inclined = (value: number) => ({ value, standardUncertainty: 0.005, degreesOfFreedom: 6 });

describe('GM by the roll period', () => {
  it('carries the scatter of the coefficient, 11 to 14 %', () => {
    expect(tableShareOfGm(0.88)).toBeCloseTo(0.114, 3);
    expect(tableShareOfGm(0.73)).toBeCloseTo(0.137, 3);
    const gm = gmByRoll('table', table, period, 5);
    expect(gm.gmFluidM).toBeCloseTo(0.64, 12);
    expect(gm.periodHalfWidthM).toBeCloseTo(2 * 0.64 * 1.959964 * 0.002, 6);
    expect(gm.halfWidthM).toBeCloseTo(Math.hypot(0.64 * 0.125, gm.periodHalfWidthM), 9);
    expect(gm.small).toBe(false);
  });

  it('is flagged when it is not shown to be over 0.20 m', () => {
    expect(gmByRoll('table', table, { ...period, value: 8.6 }, 5).small).toBe(true);
    const byC = { f: 0.8, fHalfWidth: null, source: 'C' };
    expect(gmByRoll('c', byC, { ...period, value: 8.6 }, 5).small).toBe(false);
    expect(gmByRoll('c', byC, { ...period, value: 9 }, 5).small).toBe(true);
  });

  it('calls agreement within the scatter of a table no evidence', () => {
    const gm = gmByRoll('table', table, period, 5);
    expect(rollBesideInclining(gm, inclined(0.66))).toMatchObject({
      answer: 'no-evidence',
      words: 'differs by -3 %, within the 13 % that this coefficient scatters by: no evidence',
    });
    expect(rollBesideInclining(gm, inclined(0.8)).answer).toBe('disagrees');
    const byC = gmByRoll('c', { f: 0.8, fHalfWidth: null, source: 'C' }, period, 5);
    expect(rollBesideInclining(byC, inclined(0.2)).answer).toBe('no-evidence');
  });

  it('lets only her own coefficient agree', () => {
    const own = gmByRoll('own', { f: 0.8, fHalfWidth: 0.006, source: 'own' }, period, 5);
    expect(rollBesideInclining(own, inclined(0.645)).answer).toBe('agrees');
    expect(rollBesideInclining(own, inclined(0.6)).answer).toBe('disagrees');
  });
});
