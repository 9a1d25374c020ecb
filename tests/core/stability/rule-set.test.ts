import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { ruleSetFromJson } from '#core/stability/rule-set.ts';
import { RULE_SETS } from '#core/stability/rules/all-rule-sets.ts';

const good = () => JSON.parse(JSON.stringify(RULE_SETS[0])) as Record<string, unknown>;
const refused = (json: unknown): string => {
  try {
    ruleSetFromJson(json, 'own.json');
  } catch (error) {
    if (error instanceof Fault) return `${error.code} ${error.report.where}: ${error.report.found}`;
    throw error;
  }
  return 'taken';
};

describe('a rule set from a file', () => {
  it('is taken as it stands', () => {
    expect(ruleSetFromJson(good(), 'own.json')).toEqual(RULE_SETS[0]);
  });

  it('is refused with the place of what is wrong', () => {
    const clauses = good()['clauses'] as Record<string, unknown>[];
    expect(refused(null)).toMatch(/^rules-shape own.json: the whole/);
    expect(refused({ ...good(), heelwrightRules: 2 })).toContain('heelwrightRules');
    expect(refused({ ...good(), surprise: 1 })).toContain('surprise');
    expect(refused({ ...good(), freeSurface: 'none' })).toContain('freeSurface');
    expect(refused({ ...good(), clauses: [] })).toContain('clauses');
    expect(refused({ ...good(), clauses: [clauses[0], clauses[0]] })).toContain(
      'clauses.1.id: area-0-30 stands twice',
    );
    expect(refused({ ...good(), title: 'red\u001b[31m' })).toContain('control character');
    expect(refused({ ...good(), title: 'turned\u202eround' })).toContain('control character');
    expect(refused({ ...good(), notes: Array(21).fill('x') })).toContain('notes');
    expect(refused({ ...good(), clauses: Array(101).fill(clauses[0]) })).toContain('clauses');
    expect(
      refused({ ...good(), appliesTo: { length: { measure: 'overall', fromM: 24, underM: 12 } } }),
    ).toContain('from is not below under');
    expect(refused({ ...good(), appliesTo: { builtFrom: '2007-02-30' } })).toContain(
      'appliesTo.builtFrom',
    );
  });

  it('is refused where a limit is of another dimension than its quantity', () => {
    const clauses = good()['clauses'] as { anyOf: { allOf: { limit: unknown }[] }[] }[];
    clauses[0]!.anyOf[0]!.allOf[0]!.limit = { kind: 'fixed', value: 0.055, unit: 'm' };
    expect(refused({ ...good(), clauses })).toContain(
      'area is of dimension area, its limit of length',
    );
  });

  it('is a fault of its own or nothing, whatever the file holds', () => {
    fc.assert(
      fc.property(
        fc.jsonValue({ maxDepth: 4 }),
        fc.constantFrom(...Object.keys(good())),
        (value, key) => {
          const answer = refused({ ...good(), [key]: value });
          expect(answer === 'taken' || answer.startsWith('rules-shape')).toBe(true);
        },
      ),
      { numRuns: 300 },
    );
  });
});
