import { describe, expect, it } from 'vitest';
import { directionsThrough } from '#core/hull/fairing.ts';

const line = (x: number[], y: number[]) =>
  directionsThrough(
    x,
    y.map((one): [number, number] => [one, 0]),
  );

describe('a line of the hull through its stations', () => {
  it('is exact for a parabola at any spacing', () => {
    const x = [0, 1, 2.5, 3, 5, 6];
    const { coming, leaving } = line(
      x,
      x.map((one) => 2 + one * (3 - one / 2)),
    );
    x.forEach((one, k) => {
      expect(coming[k === 0 ? 1 : k]![0]).toBeCloseTo(3 - (k === 0 ? 1 : one), 12);
      if (k < x.length - 1) expect(leaving[k]![0]).toBeCloseTo(3 - one, 12);
    });
  });

  it('keeps a parallel body straight up to its last station', () => {
    const { coming, leaving } = line([0, 1, 2, 3, 4, 5], [3, 3, 3, 3, 2.5, 1]);
    expect(coming[3]![0]).toBe(0);
    expect(leaving[3]![0]).toBe(0);
    expect(leaving[4]![0]).toBeLessThan(-0.5);
  });

  it('keeps the knuckle of a rake: between straight runs, and before a last single one', () => {
    const between = line([0, 1, 2, 3, 4], [2, 1, 0, 0, 0]);
    expect(between.coming[2]![0]).toBe(-1);
    expect(between.leaving[2]![0]).toBe(0);
    const single = line([0, 3, 10, 17, 20], [1.5, 0, 0, 0, 1.5]);
    expect(single.coming[1]![0]).toBe(-0.5);
    expect(single.leaving[1]![0]).toBe(0);
    expect(single.coming[3]![0]).toBe(0);
    expect(single.leaving[3]![0]).toBe(0.5);
    expect(single.leaving[0]![0]).toBeCloseTo(-0.5, 12);
  });

  it('does not take an inflection for a straight run', () => {
    const x = [0, 1, 2, 3, 4, 5, 6];
    const { coming, leaving } = line(
      x,
      x.map((one) => (one - 3) ** 3),
    );
    expect(coming[4]![0]).toBe(leaving[4]![0]);
    expect(coming[4]![0]).toBeCloseTo(4, 12);
  });

  it('does not let a half-breadth close before the end of the hull', () => {
    expect(line([0, 1, 2, 3], [2, 1, 0.2, 0]).coming[3]![0]).toBeLessThanOrEqual(0);
  });
});
