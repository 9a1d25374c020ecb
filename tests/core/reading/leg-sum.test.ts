import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LegsRead, legSumOf, MOST_SUM_CHANGE_MM } from '#core/reading/leg-sum.ts';

/** A day of shifts to both sides: level differences in the order they are read, mm. */
const DAY = [0, 60, 120, 180, 0, -60, -120, -180, 0];
const legsAt = (differenceMm: number, sumMm: number): LegsRead => ({
  portMm: (sumMm - differenceMm) / 2,
  starboardMm: (sumMm + differenceMm) / 2,
});
const dayOf = (sumMm: (differenceMm: number, k: number) => number) =>
  legSumOf(DAY.map((one, k) => legsAt(one, sumMm(one, k))));

describe('the sum of the legs', () => {
  it('is constant while the same water only changes sides', () => {
    const sum = dayOf(() => 520);
    expect(sum.verdict).toBe('constant');
    expect(sum.meanMm).toBeCloseTo(520, 9);
    expect(dayOf((_, k) => 520 + (k % 2 ? 1 : -1)).verdict).toBe('constant');
  });

  it('falls with a leak and rises when water comes in', () => {
    const leak = dayOf((_, k) => 520 - k);
    expect(leak.verdict).toBe('fallen');
    expect(leak.driftMm).toBeCloseTo(-8, 9);
    expect(dayOf((_, k) => 520 + k).verdict).toBe('risen');
  });

  it('moves with the heel where the legs are of unlike bore', () => {
    // A starboard leg of a tenth more area rises a tenth less than the port leg falls.
    const sum = dayOf((difference) => 520 - difference * 0.05);
    expect(sum.verdict).toBe('moves-with-heel');
    expect(sum.withHeelMm).toBeCloseTo(-18, 9);
    expect(sum.driftMm).toBeCloseTo(0, 9);
  });

  it('jumps when one leg was misread', () => {
    expect(dayOf((_, k) => (k === 5 ? 540 : 520)).verdict).toBe('jumps');
  });

  it('tells no cause of few readings, or of heels that only grow', () => {
    expect(legSumOf([legsAt(0, 520), legsAt(100, 530)]).verdict).toBe('jumps');
    expect(legSumOf([0, 40, 80, 120].map((one, k) => legsAt(one, 520 - 4 * k))).verdict).toBe(
      'jumps',
    );
    expect(legSumOf([legsAt(0, 520)]).verdict).toBe('constant');
    expect(legSumOf([520, 518, 515].map((sum) => legsAt(50, sum))).verdict).toBe('fallen');
    expect(() => legSumOf([])).toThrow(RangeError);
  });

  it('of any water and any heels is constant while nothing is lost', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -500, max: 500 }), { minLength: 1, maxLength: 20 }),
        fc.integer({ min: 100, max: 2000 }),
        (heels, sumMm) => {
          const sum = legSumOf(heels.map((one) => legsAt(one, sumMm)));
          expect(sum.verdict).toBe('constant');
          expect(sum.leftOverMm).toBeLessThan(MOST_SUM_CHANGE_MM / 1e6);
        },
      ),
    );
  });
});
