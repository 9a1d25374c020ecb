import { describe, expect, it } from 'vitest';
import { IMO_FISHING } from '#core/stability/rules/imo.ts';
import { SPAIN_WIND_AND_ROLL } from '#core/stability/rules/spain-fishing.ts';
import { verification, withVerified } from '#core/stability/verification.ts';
import { verdictsOf } from '../../support/clause-verdicts.ts';
import { leversAt, madeEvidence } from '../../support/made-evidence.ts';

const looked = { by: 'A. Sandbank', source: 'the Code', edition: '2020', page: '41' };

describe('a clause looked up by a named person', () => {
  it('judges from then on, and no other does', () => {
    const [set] = withVerified(
      [IMO_FISHING],
      [{ ruleSet: IMO_FISHING.id, clause: 'gm', ...looked }],
    );
    const verdicts = verdictsOf(set!, madeEvidence({ gmM: 0.3 }));
    expect(verdicts['gm']).toBe('not-met');
    expect(verdicts['area-0-30']).toBe('not-judged');
    expect(set!.clauses.find((one) => one.id === 'gm')!.provenance).toEqual(looked);
    expect(IMO_FISHING.clauses.find((one) => one.id === 'gm')!.provenance).toBe('from-memory');
  });

  it('brings its tables with it: the row of s that is blank in print', () => {
    const id = { ruleSet: SPAIN_WIND_AND_ROLL.id, clause: 'wind-and-roll' };
    const evidence = madeEvidence({
      levers: leversAt({ 0: 0, 10: 0.2, 20: 0.4, 30: 0.5, 50: 0.5, 70: 0.3, 90: 0 }),
    });
    expect(verdictsOf(SPAIN_WIND_AND_ROLL, evidence)['wind-and-roll']).toBe('not-judged');
    const [set] = withVerified([SPAIN_WIND_AND_ROLL], [{ ...id, ...looked }]);
    expect(verdictsOf(set!, evidence)['wind-and-roll']).toMatch(/met/);
  });

  it('is one that a set has, with all four said', () => {
    expect(() =>
      withVerified([IMO_FISHING], [{ ruleSet: IMO_FISHING.id, clause: 'no', ...looked }]),
    ).toThrow('rules-unknown');
    expect(
      verification.safeParse({ ruleSet: 'a', clause: 'b', ...looked, page: ' ' }).success,
    ).toBe(false);
  });
});
