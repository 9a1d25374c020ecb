import { describe, expect, it } from 'vitest';
import type { PlainLimit } from '#core/stability/rule-limit.ts';
import { IMO_SIMPLIFIED } from '#core/stability/rules/imo.ts';
import { simplifiedGmM } from '#core/stability/simplified-gm.ts';
import { type Made, madeEvidence } from '../../support/made-evidence.ts';

const of = IMO_SIMPLIFIED.clauses[0]!.anyOf[0]!.allOf[0]!.limit as Extract<
  PlainLimit,
  { kind: 'simplified-gm' }
>;

/** B/D = 2, ls/L = 0.3, B = 5. */
const ask = (leastFreeboardM: number, made: Made = {}) =>
  simplifiedGmM(madeEvidence({ leastFreeboardM, ...made }), of);

describe('the simplified least GM', () => {
  // Our calculation from the remembered coefficients, printed to three digits.
  it.each([
    [0.25, 0.74],
    [0.5, 0.616],
    [0.75, 0.533],
  ])('of B 5 m, freeboard %f m is %f m', (freeboard, gm) => {
    expect(ask(freeboard)).toMatchObject({ known: true, value: expect.closeTo(gm, 3) });
  });

  it('is not known outside its ranges, each by itself', () => {
    const outside = (answer: ReturnType<typeof ask>) =>
      answer.known ? null : `${answer.code} ${answer.detail.slice(0, 5)}`;
    expect(outside(ask(0.09))).toBe('outside-validity f/B 0');
    expect(outside(ask(1.01))).toBe('outside-validity f/B 0');
    expect(outside(ask(0.5, { vessel: { superstructureLengthM: 9 } }))).toBe(
      'outside-validity ls/L ',
    );
    expect(outside(ask(0.5, { vessel: { depthM: 2.9 } }))).toBe('outside-validity B/D 1');
    expect(outside(ask(0.5, { vessel: { depthM: 2.3 } }))).toBe('outside-validity B/D 2');
    expect(outside(ask(0.5, { vessel: { superstructureHeightM: 1.7 } }))).toBe(
      'outside-validity super',
    );
    expect(outside(ask(0.5, { vessel: { decked: false } }))).toBe('outside-validity not d');
    expect(outside(ask(0.5, { vessel: { sheerAtLeastStandard: false } }))).toBe(
      'outside-validity not s',
    );
  });

  it('asks for every particular it needs', () => {
    for (const vessel of [
      { depthM: null },
      { superstructureLengthM: null },
      { superstructureHeightM: null },
      { decked: null },
      { sheerAtLeastStandard: null },
    ])
      expect(ask(0.5, { vessel })).toMatchObject({ known: false, code: 'particulars-not-given' });
    const none = { superstructureLengthM: 0, superstructureHeightM: null };
    expect(ask(0.5, { vessel: none })).toMatchObject({ known: true });
  });
});
