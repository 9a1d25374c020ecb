import { type RuleSet, ruleSet } from '#core/stability/rule-set.ts';

/** A rule set of one clause: a quantity at least a number. */
export function oneClause(quantity: object, value: number, unit: string): RuleSet {
  return ruleSet.parse({
    heelwrightRules: 1,
    id: 'own',
    title: 'one clause',
    source: 'this test',
    edition: 'today',
    notes: [],
    appliesTo: {},
    freeSurface: 'upright',
    clauses: [
      {
        id: 'one',
        clause: '1',
        words: 'one figure.',
        formula: 'figure >= number',
        provenance: 'seen',
        anyOf: [
          { allOf: [{ quantity, bound: 'at-least', limit: { kind: 'fixed', value, unit } }] },
        ],
      },
    ],
  });
}

export const GM_035 = oneClause({ kind: 'gm-fluid' }, 0.35, 'm');
