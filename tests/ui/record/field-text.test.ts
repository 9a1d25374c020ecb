import { describe, expect, it } from 'vitest';
import { fieldText, fieldTyped, valueFromText } from '#ui/record/field-text.ts';

describe('the value of a field', () => {
  it('is shown as its line has it, nothing rounded', () => {
    expect(fieldText(-0.2510000001)).toBe('\u22120.2510000001');
    expect(fieldText([4, -5.5])).toBe('4; \u22125.5');
    expect([fieldText(null), fieldTyped(null)]).toEqual(['none', '']);
    expect(fieldText('scale 14')).toBe('scale 14');
  });

  it('is read of what is typed, by what stands there', () => {
    expect(valueFromText(' 0,26 ', 0.25)).toBe(0.26);
    expect(valueFromText('\u22122.1', 2)).toBe(-2.1);
    expect(valueFromText('', 3)).toBeNull();
    expect(valueFromText('2.8', null)).toBe(2.8);
    expect(valueFromText('4; 5,5 -3', [1])).toEqual([4, 5.5, -3]);
    expect(valueFromText('12', 'scale 14')).toBe('12');
    for (const [typed, standing] of [
      ['1e3', 1],
      ['0.2 t', 1],
      ['4; x', [1]],
      ['', [1]],
      ['', 'scale 14'],
    ] as const)
      expect(valueFromText(typed, typeof standing === 'object' ? [...standing] : standing)).toBe(
        undefined,
      );
  });

  it('typed over unchanged is the same value again', () => {
    for (const value of [0.1 + 0.2, -1.5, [3, -0.25], 'text'])
      expect(valueFromText(fieldTyped(value), value)).toEqual(value);
  });
});
