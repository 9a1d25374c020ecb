import type { ConditionEvidence } from '#core/stability/evidence.ts';
import { judgeCondition } from '#core/stability/judge-condition.ts';
import type { RuleSet } from '#core/stability/rule-set.ts';

/** Verdict of every clause by its id. */
export function verdictsOf(set: RuleSet, evidence: ConditionEvidence): Record<string, string> {
  const [judged] = judgeCondition([set], evidence);
  return Object.fromEntries(judged!.clauses.map((one) => [one.clause, one.verdict]));
}

/** Ids of the clauses on the wrong side. */
export function notMet(set: RuleSet, evidence: ConditionEvidence): string[] {
  return Object.entries(verdictsOf(set, evidence))
    .filter(([, verdict]) => verdict === 'not-met')
    .map(([id]) => id);
}
