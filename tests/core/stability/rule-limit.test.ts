import { describe, expect, it } from 'vitest';
import { dimensionsOfLimit, fixedLimit, limit } from '#core/stability/rule-limit.ts';

describe('a limit of a rule set', () => {
  // The three units the texts print for one area: 0.055 m rad, 3.15 m deg, 10.3 ft deg.
  it('comes in the unit it is printed in', () => {
    expect(fixedLimit({ value: 0.055, unit: 'm.rad' })).toBe(0.055);
    expect(fixedLimit({ value: 3.15, unit: 'm.deg' })).toBeCloseTo(0.055, 4);
    expect(fixedLimit({ value: 10.3, unit: 'ft.deg' })).toBeCloseTo(0.0548, 4);
    expect(fixedLimit({ value: 75, unit: 'mm' })).toBeCloseTo(0.075, 12);
    expect(fixedLimit({ value: 1.15, unit: 'ft' })).toBeCloseTo(0.3505, 4);
    expect(fixedLimit({ value: 25, unit: 'deg' })).toBe(25);
  });

  it('knows what it is measured in', () => {
    expect(dimensionsOfLimit({ kind: 'fixed', value: 1, unit: 'ft.deg' })).toEqual(['area']);
    expect(dimensionsOfLimit({ kind: 'assigned-freeboard' })).toEqual(['length']);
    expect(
      dimensionsOfLimit({
        kind: 'least-of',
        of: [
          { kind: 'deck-edge-share', share: 0.8 },
          { kind: 'fixed', value: 2, unit: 'm' },
        ],
      }),
    ).toEqual(['heel', 'length']);
  });

  it('holds no limits in limits in limits, and no range upside down', () => {
    const inner = {
      kind: 'least-of',
      of: [{ kind: 'assigned-freeboard' }, { kind: 'assigned-freeboard' }],
    };
    expect(limit.safeParse({ kind: 'least-of', of: [inner, inner] }).success).toBe(false);
    expect(
      limit.safeParse({ kind: 'fixed', value: Number.POSITIVE_INFINITY, unit: 'm' }).success,
    ).toBe(false);
    expect(limit.safeParse({ kind: 'fixed', value: 1, unit: 'furlong' }).success).toBe(false);
  });
});
