import { describe, expect, it } from 'vitest';
import { unitOfColumn } from '#core/sample/sample-unit.ts';

const heel = (name?: string, unit?: string) => unitOfColumn('heel', name, unit, 'line 3', 2);
const time = (name?: string, unit?: string) => unitOfColumn('time', name, unit, 'line 3', 1);

describe('unit of a column', () => {
  it('is second or degree unless header or units say otherwise', () => {
    expect([
      time(),
      time('timeS'),
      time('t', 's'),
      heel(),
      heel('heelDeg'),
      heel('fore (°)'),
    ]).toEqual(new Array(6).fill(1));
    const radian = 180 / Math.PI;
    expect([heel('x', '[rad]'), heel('roll (rad)'), heel('heelRad')]).toEqual([
      radian,
      radian,
      radian,
    ]);
    expect([time('timeMs'), time('time', 'ms'), time('t [ms]')]).toEqual([1e-3, 1e-3, 1e-3]);
    // the row of units has the last word
    expect(heel('heelRad', 'deg')).toBe(1);
  });

  it('that is not known is refused with its place', () => {
    expect(() => heel('heel (mm)')).toThrow(/table-unit.*line 3, column 2.*mm/);
    expect(() => time('t', 'h')).toThrow(/table-unit/);
    expect(() => heel('x', 'constructor')).toThrow(/table-unit/);
  });
});
