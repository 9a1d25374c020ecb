import { expect, it } from 'vitest';
import { partPanel } from '#core/hull/panel.ts';
import { sectionCurve } from '#core/hull/section-curve.ts';
import { ellipseSection, type Section } from './hulls.ts';

const curve = (section: Section) => sectionCurve(section.map(([yM, zM]) => ({ yM, zM })));
const arc = (points: number) => curve(ellipseSection(2, 2, points, Math.PI / 2));
const whole = (count: number) => Array.from({ length: count }, () => [0, 1] as const);

it('is one part where straight everywhere', () => {
  const straight = curve([
    [0, 0],
    [1, 1],
    [3, 3],
  ]);
  expect(partPanel([straight, straight], whole(2))).toEqual([[1], [1]]);
});

it('runs from point to point where the sections have as many points at like places', () => {
  const parted = partPanel([arc(10), arc(10), arc(10)], whole(3));
  for (const share of arc(10).points.slice(1)) {
    expect(parted[0]!.some((one) => Math.abs(one - share) < 1e-9)).toBe(true);
  }
  expect(parted[0]!.length % 2).toBe(0);
});

it('parts by like girth where they have not, more closely where they turn', () => {
  const bilge = curve([
    [0, 0],
    [2.2, 0],
    [2.4, 0.05],
    [2.5, 0.2],
    [2.5, 3],
  ]);
  const parted = partPanel([bilge, arc(8), bilge], whole(3));
  expect(parted[0]).toEqual(parted[1]);
  const ends = parted[0]!.filter((_, k) => k % 2 === 1);
  expect(ends.at(-1)).toBe(1);
  const widths = ends.map((end, k) => end - (ends[k - 1] ?? 0));
  expect(Math.max(...widths)).toBeGreaterThan(2 * Math.min(...widths));
});

it('passes a closed end by', () => {
  const point = sectionCurve([{ yM: 0, zM: 2 }]);
  const parted = partPanel([arc(10), point], whole(2));
  expect(parted[1]).toHaveLength(parted[0]!.length);
});
