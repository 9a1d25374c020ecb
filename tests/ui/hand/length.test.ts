import { describe, expect, it } from 'vitest';
import { lengthMm } from '#ui/hand/length.ts';

describe('a typed length', () => {
  it('is millimetres unless a unit is named, with point or comma', () => {
    expect(lengthMm('71')).toBe(71);
    expect(lengthMm(' 71,5 mm ')).toBe(71.5);
    expect(lengthMm('2.5 m')).toBe(2500);
    expect(lengthMm('12cm')).toBe(120);
    expect(lengthMm('2 in')).toBeCloseTo(50.8, 12);
    expect(lengthMm('\u22123')).toBe(-3);
    expect(lengthMm('.5')).toBe(0.5);
  });

  it('is refused rather than guessed', () => {
    for (const typed of ['', 'mm', '1.2.3', '12 yards', '1e3', 'NaN', '--3', '1 000']) {
      expect(lengthMm(typed)).toBeNull();
    }
  });
});
