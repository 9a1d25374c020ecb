import { type NotFor, outsideOf } from './applies-to.ts';
import type { ConditionEvidence } from './evidence.ts';
import { bareVerdict, type ClauseVerdict, judgeClause, notJudged } from './judge-clause.ts';
import { movedOf } from './margin.ts';
import type { RuleSet } from './rule-set.ts';

/** One rule set on one condition. */
export interface SetVerdict {
  readonly ruleSet: string;
  readonly title: string;
  readonly source: string;
  readonly edition: string;
  readonly notes: readonly string[];
  /** In what she is outside what the set applies to; with any, nothing of it is judged. */
  readonly outside: readonly NotFor[];
  readonly clauses: readonly ClauseVerdict[];
}

/** Every clause of every set on one condition, in the sets' own order. */
export function judgeCondition(
  sets: readonly RuleSet[],
  evidence: ConditionEvidence,
): readonly SetVerdict[] {
  const moved = evidence.uncertaintyKnown ? movedOf(evidence) : [];
  return sets.map((set) => {
    const outside = outsideOf(set.appliesTo, evidence.vessel);
    const detail = outside.map((one) => `${one.wanted}: ${one.found || 'not given'}`).join('; ');
    return {
      ruleSet: set.id,
      title: set.title,
      source: set.source,
      edition: set.edition,
      notes: set.notes,
      outside,
      clauses: set.clauses.map((clause) =>
        outside.length > 0
          ? notJudged(bareVerdict(set, clause), 'outside-scope', detail)
          : judgeClause(set, clause, evidence, moved),
      ),
    };
  });
}

/** That the architect lets a margin within its uncertainty count as met, by name. */
export interface Signed {
  readonly ruleSet: string;
  readonly clause: string;
  readonly by: string;
}

/**
 * Whether a verdict counts as met in tables, limits and advice. Within uncertainty it does not unless
 * the architect signed for that clause; `null` where it says nothing (not asked, not judged).
 */
export function countsAsMet(verdict: ClauseVerdict, signed: readonly Signed[]): boolean | null {
  switch (verdict.verdict) {
    case 'met':
      return true;
    case 'not-met':
      return false;
    case 'met-within-uncertainty':
      return signed.some((one) => one.ruleSet === verdict.ruleSet && one.clause === verdict.clause);
    case 'not-judged':
    case 'not-asked':
      return null;
  }
}
