import { describe, expect, it } from 'vitest';
import { limitAnswer } from '#core/stability/limit-value.ts';
import type { Limit } from '#core/stability/rule-limit.ts';
import { leversAt, type Made, madeEvidence } from '../../support/made-evidence.ts';

const ask = (limit: Limit, made: Made = {}) =>
  limitAnswer(
    { evidence: madeEvidence(made), side: 'starboard', method: 'exact' },
    limit,
    'open-at-sea',
  );

describe('a limit for a condition', () => {
  // Spain, RD 543/2007 annex II 2(d): 0.070 at 15 degrees, 0.055 at 30.
  it('of an area by the heel of the maximum, never under its base', () => {
    const limit = {
      kind: 'area-by-maximum',
      baseMRad: 0.055,
      perDegMRad: 0.001,
      underDeg: 30,
    } as const;
    const at = (deg: number) =>
      ask(limit, { levers: leversAt({ 0: 0, [deg]: 0.5, [2 * deg]: 0 }) });
    expect(at(15)).toMatchObject({ value: expect.closeTo(0.07, 9) });
    expect(at(30)).toMatchObject({ value: expect.closeTo(0.055, 9) });
    expect(at(40)).toMatchObject({ value: 0.055 });
  });

  it('of the deck edge, of the freeboard assigned, and the least of several', () => {
    const share = { kind: 'deck-edge-share', share: 0.8 } as const;
    expect(ask(share, { deckEdgeRad: () => Math.PI / 18 })).toMatchObject({
      value: expect.closeTo(8, 12),
    });
    expect(ask(share, { deckEdgeRad: () => null })).toMatchObject({
      value: 72,
      note: 'none-within-reach',
    });
    expect(ask({ kind: 'assigned-freeboard' })).toMatchObject({ value: 0.4 });
    const none = { vessel: { assignedFreeboardM: null } };
    expect(ask({ kind: 'assigned-freeboard' }, none)).toMatchObject({
      code: 'particulars-not-given',
    });
    const least: Limit = {
      kind: 'least-of',
      of: [{ kind: 'fixed', value: 500, unit: 'mm' }, { kind: 'assigned-freeboard' }],
    };
    expect(ask(least)).toMatchObject({ value: 0.4 });
    expect(ask(least, none)).toMatchObject({ known: false });
  });
});
