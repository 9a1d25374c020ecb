import { describe, expect, it } from 'vitest';
import { ruleSetFromJson } from '#core/stability/rule-set.ts';
import { RULE_SETS, ruleSetsNamed } from '#core/stability/rules/all-rule-sets.ts';
import { verdictsOf } from '../../../support/clause-verdicts.ts';
import { madeEvidence } from '../../../support/made-evidence.ts';

describe('the rule sets that come with the program', () => {
  it.each(RULE_SETS.map((set) => [set.id, set] as const))(
    '%s has the form of a file',
    (id, set) => {
      const again = ruleSetFromJson(JSON.parse(JSON.stringify(set)), id);
      expect(again).toEqual(set);
    },
  );

  it('have each their own id', () => {
    expect(new Set(RULE_SETS.map((set) => set.id)).size).toBe(RULE_SETS.length);
  });

  it('never judge by a clause from memory', () => {
    const evidence = madeEvidence({ vessel: { lengthsM: { regulation: 25, waterline: 24 } } });
    for (const set of RULE_SETS.filter((one) => one.id.startsWith('imo-')))
      for (const verdict of Object.values(verdictsOf(set, evidence)))
        expect(verdict).toBe('not-judged');
  });

  it('use no word that promises', () => {
    expect(JSON.stringify(RULE_SETS)).not.toMatch(/\b(safe|approved)\b/i);
  });

  it("are found by name, an authority's own too, and two of one name are refused", () => {
    const own = { ...RULE_SETS[0]!, id: 'kettle-sound' };
    expect(ruleSetsNamed(['kettle-sound', 'uk-heel-test'], [own]).map((set) => set.id)).toEqual([
      'kettle-sound',
      'uk-heel-test',
    ]);
    expect(() => ruleSetsNamed(['kettle'])).toThrow('rules-unknown');
    expect(() => ruleSetsNamed([], [RULE_SETS[1]!])).toThrow('input-contradiction');
  });
});
