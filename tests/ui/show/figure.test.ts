import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clockTime,
  duration,
  figure,
  fixed,
  heelFigure,
  paceWords,
  signed,
} from '#ui/show/figure.ts';

describe('a number for people', () => {
  it('has a true minus, and zero has no sign', () => {
    expect(fixed(-1.234, 2)).toBe('\u22121.23');
    expect(fixed(-0.001, 2)).toBe('0.00');
    expect(signed(0.25, 1)).toBe('+0.3');
    expect(signed(-0.25, 2)).toBe('\u22120.25');
    expect(signed(0.001, 1)).toBe('0.0');
  });

  it('stops where its uncertainty stops', () => {
    expect(figure(0.94203, 0.0042)).toEqual({ value: '0.942', plusMinus: '0.004' });
    expect(figure(1.8621, 0.0112)).toEqual({ value: '1.862', plusMinus: '0.011' });
    expect(figure(46.8234, 0.312)).toEqual({ value: '46.82', plusMinus: '0.31' });
    expect(figure(12345, 240)).toEqual({ value: '12350', plusMinus: '240' });
    expect(figure(5.5, 9.6)).toEqual({ value: '6', plusMinus: '10' });
  });

  it('shows a heel with fewer digits while its uncertainty is large', () => {
    expect(heelFigure(-2.698, 0.02)).toEqual({ value: '2.70', plusMinus: '0.02', side: 'port' });
    expect(heelFigure(2.698, 0.0061)).toEqual({
      value: '2.698',
      plusMinus: '0.006',
      side: 'starboard',
    });
    expect(heelFigure(-0.004, 0.02).side).toBe('upright');
    expect(heelFigure(1, 0.00004)).toMatchObject({ value: '1.000', plusMinus: '0.001' });
  });

  it('shows neither the value nor an uncertainty where there is none', () => {
    for (const halfWidth of [Number.POSITIVE_INFINITY, Number.NaN, 0, -1]) {
      expect(figure(1.5, halfWidth)).toEqual({ value: '\u2013', plusMinus: null });
    }
    expect(figure(Number.NaN, 0.1).plusMinus).toBeNull();
  });

  it('never has more than two significant digits of uncertainty, and value and ± end alike', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 1e-4, max: 40, noNaN: true }),
        (value, halfWidth) => {
          const shown = figure(value, halfWidth);
          const digits = shown.plusMinus!.replace('.', '').replace(/^0+/, '').replace(/0+$/, '');
          expect(digits.length).toBeLessThanOrEqual(2);
          const decimals = (text: string) => (text.split('.')[1] ?? '').length;
          expect(decimals(shown.value)).toBe(decimals(shown.plusMinus!));
          const read = Number(shown.value.replace('\u2212', '-'));
          expect(Math.abs(read - value)).toBeLessThanOrEqual(0.51 * halfWidth);
        },
      ),
    );
  });

  it('tells times and spans plainly', () => {
    expect(clockTime('2026-11-25T14:05:28.000', true)).toBe('14:05:28');
    expect(clockTime('2026-11-25T14:05:28.000', false)).toBe('14:05');
    expect(clockTime('nonsense')).toBe('\u2013');
    expect([8.04, 8.1, 1, 18.6].map(paceWords)).toEqual(['8', '8.1', '1', '19']);
    expect(duration(0.4)).toBe('under 1 s');
    expect(duration(63.6)).toBe('64 s');
    expect(duration(431)).toBe('7 min');
  });
});
