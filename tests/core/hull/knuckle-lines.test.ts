import { expect, it } from 'vitest';
import { knuckleLines } from '#core/hull/knuckle-lines.ts';
import type { SectionCurve } from '#core/hull/section-curve.ts';

const curve = (...knuckles: number[]): SectionCurve => ({
  girthM: 1,
  knuckles,
  points: [0, ...knuckles, 1],
  at: (share) => [share, share],
});

it('joins knuckles one to one where the counts agree, whatever their places', () => {
  expect(knuckleLines([curve(0.4, 0.8), curve(0.5, 0.9), curve(0.6, 0.7)])).toEqual([
    [0.4, 0.8],
    [0.5, 0.9],
    [0.6, 0.7],
  ]);
});

it('carries a line on where it has faded out, and joins by likeness where counts differ', () => {
  const rows = knuckleLines([curve(0.3, 0.6), curve(0.62), curve(0.64), curve()]);
  expect(rows.map((row) => row.length)).toEqual([2, 2, 2, 2]);
  expect(rows[1]![1]).toBe(0.62);
  expect(rows[1]![0]).toBeCloseTo(0.31, 12);
  expect(rows[3]![1]).toBeCloseTo(0.64, 12);
  for (const [low, high] of rows) expect(low!).toBeLessThan(high!);
});

it('has none where no section has any', () => {
  expect(knuckleLines([curve(), curve()])).toEqual([[], []]);
});
