import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { lowerEnvelopeLine } from '#core/numerics/lower-envelope.ts';

const points = fc
  .array(
    fc.tuple(
      fc.double({ min: 0.001, max: 5, noNaN: true }),
      fc.double({ min: 0, max: 3, noNaN: true }),
    ),
    {
      minLength: 2,
      maxLength: 60,
    },
  )
  .map((pairs) => {
    let at = 0;
    const x = pairs.map(([step]) => (at += step));
    return { x, y: pairs.map(([, height]) => height) };
  });

describe('the line below all points', () => {
  it('is the line itself when points lie on it and above', () => {
    const x = [0, 1, 2, 3, 4, 5];
    const above = [0, 0.5, 3, 0.1, 2, 0];
    const found = lowerEnvelopeLine(
      x,
      x.map((xi, i) => 7 + 0.25 * xi + above[i]!),
    );
    expect(found.slope).toBeCloseTo(0.25, 12);
    expect(found.y + found.slope * (0 - found.atX)).toBeCloseTo(7, 12);
    found.heights.forEach((height, i) => {
      expect(height).toBeCloseTo(above[i]!, 12);
    });
  });

  it('never has a point below it', () => {
    fc.assert(
      fc.property(points, ({ x, y }) => {
        expect(Math.min(...lowerEnvelopeLine(x, y).heights)).toBeGreaterThan(-1e-9);
      }),
    );
  });

  it('leaves no more height than any line through two of the points that stays below all', () => {
    const total = (heights: Iterable<number>) => [...heights].reduce((sum, h) => sum + h, 0);
    fc.assert(
      fc.property(points, ({ x, y }) => {
        const best = total(lowerEnvelopeLine(x, y).heights);
        for (let a = 0; a < x.length; a++) {
          for (let b = a + 1; b < x.length; b++) {
            const slope = (y[b]! - y[a]!) / (x[b]! - x[a]!);
            const heights = x.map((xi, i) => y[i]! - (y[a]! + slope * (xi - x[a]!)));
            if (Math.min(...heights) >= 0) expect(best).toBeLessThanOrEqual(total(heights) + 1e-6);
          }
        }
      }),
      { numRuns: 50 },
    );
  });

  it('keeps its slope when both clocks start somewhere else', () => {
    const x = [0, 1, 2, 3, 4];
    const y = [0.2, 1.1, 2, 3.4, 4];
    const moved = lowerEnvelopeLine(
      x.map((xi) => xi + 1.7e6),
      y.map((yi) => yi + 3e5),
    );
    expect(moved.slope).toBeCloseTo(lowerEnvelopeLine(x, y).slope, 8);
  });

  it.each([
    ['input-unequal-length', [0, 1], [0]],
    ['input-too-few', [], []],
    ['input-too-few', [3, 3, 3], [1, 2, 0]],
    ['input-not-finite', [0, 1, 2], [0, Number.NaN, 1]],
    ['input-shape', [0, 2, 1], [0, 1, 1]],
  ])('refuses with %s', (code, x, y) => {
    expect(() => lowerEnvelopeLine(x, y)).toThrow(Fault);
    try {
      lowerEnvelopeLine(x, y);
    } catch (fault) {
      expect((fault as Fault).code).toBe(code);
    }
  });
});
