import { describe, expect, it } from 'vitest';
import { quantityAnswers } from '#core/stability/quantity-value.ts';
import type { Quantity } from '#core/stability/rule-quantity.ts';
import { leversAt, type Made, madeEvidence } from '../../support/made-evidence.ts';

const ask = (of: Quantity, made: Made = {}) => {
  const [answer] = quantityAnswers(
    { evidence: madeEvidence(made), side: 'starboard', method: 'upright' },
    of,
  );
  return answer!.known ? answer!.value : answer!.code;
};

describe('a quantity of a condition', () => {
  it('that is read off', () => {
    expect(ask({ kind: 'gm-fluid' }, { gmM: 0.7 })).toBe(0.7);
    expect(ask({ kind: 'freeboard' })).toBe(0.6);
    expect(ask({ kind: 'trim' }, { trimM: -0.3 })).toBe(0.3);
    expect(ask({ kind: 'deck-edge' })).toBeCloseTo(18, 12);
    expect(ask({ kind: 'downflooding', opened: 'weathertight' })).toBeCloseTo(55, 12);
    expect(
      ask({ kind: 'list' }, { levers: leversAt({ 0: -0.05, 10: 0.05, 20: 0.15 }) }),
    ).toBeCloseTo(5, 9);
    expect(ask({ kind: 'not-computed', why: 'shown elsewhere' })).toBe('not-computed');
  });

  it('of its levers, its moments and the wind', () => {
    expect(ask({ kind: 'area', fromDeg: 0, to: 30, stops: null })).toBeGreaterThan(0.1);
    expect(ask({ kind: 'lever', fromDeg: 30, toDeg: 90, stops: null })).toBeGreaterThan(0.5);
    expect(ask({ kind: 'heel-of-maximum', stops: null })).toBeGreaterThan(40);
    expect(ask({ kind: 'range', stops: null })).toBeGreaterThan(80);
    expect(ask({ kind: 'heel-under-moment', moment: 'towing' })).toBe('moment-not-given');
    expect(
      ask({ kind: 'wind-heel', wind: { pressure: { at: [0, 9], value: [500, 500] } } }),
    ).toBeGreaterThan(3);
  });
});
