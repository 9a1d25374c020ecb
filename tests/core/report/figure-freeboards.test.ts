import { expect, it } from 'vitest';
import { figureFreeboards } from '#core/report/figure-freeboards.ts';

const point = (
  xM: number,
  side: 'port' | 'starboard',
  waterM: number,
  leftOverM: number | null,
) => ({
  ...{ point: `${side} ${xM}`, side, xM, waterM, leftOverM },
});

it('draws every point and a line a side through what was fitted', () => {
  const svg = figureFreeboards([
    point(1, 'port', 1.9, 0.001),
    point(14, 'port', 1.8, -0.001),
    point(1, 'starboard', 1.95, 0),
    point(14, 'starboard', 1.85, 0),
  ]);
  expect(svg).not.toMatch(/NaN|Infinity/);
  expect(svg.match(/fill="#101418" stroke/g)).toHaveLength(3);
  expect(svg.match(/fill="#ffffff" stroke/g)).toHaveLength(3);
  expect(svg.match(/stroke-dasharray/g)).toHaveLength(1);
});

it('draws one point, and points without a fit', () => {
  expect(figureFreeboards([point(1, 'port', 1.9, null)])).not.toMatch(/NaN|Infinity|dasharray/);
});
