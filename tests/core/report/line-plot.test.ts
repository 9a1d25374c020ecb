import { describe, expect, it } from 'vitest';
import {
  numberedTogether,
  type PlotMark,
  roundStep,
  scaleOf,
  sideBySide,
  ticksTo,
} from '#core/report/line-plot.ts';

const mark = (state: number, momentTM: number, tangent: number): PlotMark => ({
  key: `${state}`,
  state,
  momentTM,
  tangent,
  leftOver: 0,
  halfWidth: 1e-4,
  hollow: false,
});
const MARKS = [
  mark(0, 0, 0.0007),
  mark(1, 1.05, 0.0246),
  mark(2, 2.1, 0.048),
  mark(3, 1.05, 0.0247),
  mark(4, 0, 0.0008),
];

describe('the plot of tangent on moment', () => {
  it('numbers repeated states together', () => {
    expect(numberedTogether(MARKS, 0.08).map((group) => group.numbers)).toEqual([
      '0, 4',
      '1, 3',
      '2',
    ]);
  });

  it('sets equal moments side by side, about their middle', () => {
    expect(sideBySide(MARKS, 0.08)).toEqual([-0.5, -0.5, 0, 0.5, 0.5]);
  });

  it('reaches equally far to port and starboard and holds every mark', () => {
    const scale = scaleOf(MARKS);
    expect(scale.mostMomentTM).toBeGreaterThan(2.1);
    expect(scale.mostTangent).toBeGreaterThan(0.048);
    expect(scale.momentTicks).toContain(0);
    expect(scale.momentTicks[0]).toBe(-scale.momentTicks.at(-1)!);
  });

  it('steps by 1, 2 or 5', () => {
    expect(roundStep(2.5, 3)).toBe(1);
    expect(roundStep(0.056, 3)).toBeCloseTo(0.02, 12);
    expect(roundStep(12, 3)).toBe(5);
    expect(ticksTo(2.5, 3)).toEqual([-2, -1, 0, 1, 2]);
  });
});
