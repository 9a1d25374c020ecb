import { Fault } from '../fault/fault.ts';
import { checkAllFinite } from '../quantity/check.ts';

/** Mean indication of one axis along gravity and against it, g. */
export interface AxisPositions {
  readonly axis: 'x' | 'y' | 'z';
  readonly upG: number;
  readonly downG: number;
}

export interface AxisResult {
  readonly axis: 'x' | 'y' | 'z';
  readonly offsetG: number;
  /** Indicated over true; 1 is a perfect axis. */
  readonly gain: number;
}

/** An axis whose halves differ by less than this was not turned over. */
const LEAST_SPAN_G = 1;

/**
 * Offset and gain of each axis of an accelerometer from six positions: offset = (up + down) / 2,
 * gain = (up - down) / 2 in units of local gravity. A levelling error of 1 degree costs the gain
 * 0.015 % but goes whole into the zero of the axes that lie level, so that a zero is taken by
 * reversal, and a small-angle scale by a sine bar: never from these. Common practice, no source.
 * Faults: `input-range` for an axis that was not turned over, `input-not-finite`.
 */
export function sixPositions(axes: readonly AxisPositions[]): AxisResult[] {
  return axes.map(({ axis, upG, downG }) => {
    checkAllFinite([upG, downG], `axis ${axis}`);
    if (Math.abs(upG - downG) < LEAST_SPAN_G) {
      throw new Fault('input-range', `axis ${axis}`, `${upG} g up and ${downG} g down`);
    }
    return { axis, offsetG: (upG + downG) / 2, gain: (upG - downG) / 2 };
  });
}
