import { describe, expect, it } from 'vitest';
import { figure, fixed, measured, signed, significant } from '#core/report/figure.ts';

describe('a figure on paper', () => {
  it('stops where its uncertainty stops, with the unit once', () => {
    expect(measured(0.9459681, 0.0036263, 'm')).toBe('0.9460 ± 0.0036 m');
    expect(measured(-2.70512, 0.021, '')).toBe('\u22122.705 ± 0.021');
    expect(figure(123.4, 57)).toEqual({ value: '120', plusMinus: '60' });
  });

  it('says that no uncertainty is stated rather than inventing one', () => {
    expect(measured(46.82, 0, 't')).toBe('46.82 t, no uncertainty stated');
    expect(measured(46.82, Number.NaN, '')).toBe('46.82, no uncertainty stated');
  });

  it('has a true minus and no sign before zero', () => {
    expect(significant(-0.00456789, 3)).toBe('\u22120.00457');
    expect(significant(1 / 3, 5)).toBe('0.33333');
    expect(signed(0.0001, 3)).toBe('0.000');
    expect(fixed(-0.0001, 3)).toBe('0.000');
  });
});
