import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  counted,
  float32FromBits,
  heelDegOfDifference,
  levelMmFromValue,
  sineFromValue,
  valueOfCount,
} from '#core/part/counted.ts';

const degrees = { form: 'integer', scale: 0.001, offset: 0, unit: 'deg', step: null } as const;

describe('a count of a serial instrument', () => {
  it('is scale and offset of a number', () => {
    // A reply of -1000 at 0.001 degree a count is -1 degree.
    expect(valueOfCount(-1000, degrees)).toBeCloseTo(-1, 12);
    expect(valueOfCount(500, { ...degrees, scale: -0.01, offset: 2 })).toBeCloseTo(-3, 12);
  });

  it('of float32 is its 32 bits', () => {
    // IEEE 754 binary32: 0x3F800000 is 1, 0xC0200000 is -2.5, 0x7FC00000 no number.
    expect(float32FromBits(0x3f800000)).toBe(1);
    expect(valueOfCount(0xc0200000, { ...degrees, form: 'float32', scale: 1 })).toBe(-2.5);
    expect(float32FromBits(0x7fc00000)).toBeNaN();
    fc.assert(
      fc.property(fc.float({ noNaN: true }), (value) => {
        const bits = new DataView(new ArrayBuffer(4));
        bits.setFloat32(0, value);
        expect(float32FromBits(bits.getUint32(0))).toBe(value);
      }),
    );
  });

  it('is refused a scale of nothing and a unit that is none', () => {
    expect(counted.safeParse({ ...degrees, scale: 0 }).success).toBe(false);
    expect(counted.safeParse({ ...degrees, unit: 'gon' }).success).toBe(false);
    expect(counted.safeParse({ ...degrees, scale: Number.POSITIVE_INFINITY }).success).toBe(false);
  });
});

describe('the heel a value means', () => {
  it('is the same however it is given', () => {
    const angle = (2 * Math.PI) / 180;
    for (const [value, unit] of [
      [2, 'deg'],
      [angle, 'rad'],
      [1000 * Math.tan(angle), 'mm/m'],
      [Math.sin(angle), 'g'],
    ] as const)
      expect(sineFromValue(value, unit), unit).toBeCloseTo(Math.sin(angle), 14);
  });

  it('is none beyond 90 degrees, where the sine says another angle', () => {
    expect(sineFromValue(90, 'deg')).toBeCloseTo(1, 14);
    expect(sineFromValue(-178, 'deg')).toBeNull();
    expect(sineFromValue(2, 'rad')).toBeNull();
  });

  it('is asked of units of heel and level only', () => {
    expect(() => sineFromValue(1, 'mm')).toThrow(RangeError);
    expect(() => levelMmFromValue(1, 'deg')).toThrow(RangeError);
    expect(levelMmFromValue(0.25, 'm')).toBe(250);
  });

  it('of a small difference is a straight line', () => {
    expect(heelDegOfDifference(0.1, 'deg', null)).toBe(0.1);
    expect(heelDegOfDifference(1e-4, 'rad', null)).toBeCloseTo(0.00573, 5);
    expect(heelDegOfDifference(1, 'mm/m', null)).toBeCloseTo(0.0573, 4);
    // 1 mm over 8 m is 0.0072 degree.
    expect(heelDegOfDifference(1, 'mm', 8)).toBeCloseTo(0.0072, 4);
    expect(heelDegOfDifference(1, 'mm', null)).toBeNull();
    expect(heelDegOfDifference(1, 'degC', 8)).toBeNull();
  });
});
