import { expect, test } from 'vitest';
import { checkClauses } from '#core/limits/clause-check.ts';
import { conditionEvidence } from '#core/stability/condition-evidence.ts';
import { IMO_FISHING } from '#core/stability/rules/imo.ts';
import { US_WORKING } from '#core/stability/rules/united-states.ts';
import { boxQuestion, NO_PARTICULARS } from '#tests/core/stability/box-condition.ts';

const vessel = { ...NO_PARTICULARS, services: ['workboat'] as const };
const of = (kgM: number) => {
  const question = boxQuestion({ kgM });
  return conditionEvidence({ ...question, vessel, loaded: { ...question.loaded, causes: null } });
};

test('what is not met is named; what is from memory limits nothing', () => {
  const bad = checkClauses([US_WORKING, IMO_FISHING], of(2.7));
  expect(bad.met).toBe(false);
  expect(bad.failing.map(({ ruleSet }) => ruleSet)).not.toContain('imo-is-code-fishing');
  expect(bad.failing.map(({ clause }) => clause)).toContain('gm');
  expect(checkClauses([US_WORKING], of(1.2)).met).toBe(true);
  expect(() => checkClauses([IMO_FISHING], of(1.2))).toThrow(/loading-no-limit/);
});
