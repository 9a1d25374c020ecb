import { describe, expect, it } from 'vitest';
import { HEELING_MOMENT_RULES } from '#core/stability/rules/heeling-moments.ts';
import { verdictsOf } from '../../../support/clause-verdicts.ts';
import { type Made, madeEvidence } from '../../../support/made-evidence.ts';

const lifting = HEELING_MOMENT_RULES.find((set) => set.id === 'own-lifting')!;
const load = (momentTM: number, made: Made = {}) =>
  verdictsOf(
    lifting,
    madeEvidence({
      kind: 'working',
      deckEdgeRad: () => 0.4,
      moments: [{ kind: 'lifting', words: 'a rope bag', momentTM: () => momentTM, measured: null }],
      ...made,
    }),
  );

describe('heel under a moment, our setting', () => {
  it('has a pass and a fail of each clause alone', () => {
    expect(load(9)).toEqual({ 'lifting-heel': 'met', 'lifting-sudden': 'met' });
    expect(load(11)).toEqual({ 'lifting-heel': 'not-met', 'lifting-sudden': 'met' });
    expect(load(9, { downfloodingRad: () => 0.2 })).toEqual({
      'lifting-heel': 'met',
      'lifting-sudden': 'not-met',
    });
    expect(load(9, { deckEdgeRad: () => 0.3 })['lifting-heel']).toBe('not-met');
  });

  it('is asked while she works, and of each moment', () => {
    expect(load(9, { kind: 'departure' })).toEqual({
      'lifting-heel': 'not-asked',
      'lifting-sudden': 'not-asked',
    });
    expect(HEELING_MOMENT_RULES.map((set) => set.id)).toEqual([
      'own-lifting',
      'own-towing',
      'own-gear-pull',
    ]);
  });

  it('says that its numbers are ours', () => {
    for (const set of HEELING_MOMENT_RULES)
      for (const clause of set.clauses) expect(clause.provenance).toBe('our-setting');
  });
});
