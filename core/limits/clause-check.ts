import { Fault } from '../fault/fault.ts';
import type { ConditionEvidence } from '../stability/evidence.ts';
import type { ClauseVerdict } from '../stability/judge-clause.ts';
import { judgeCondition } from '../stability/judge-condition.ts';
import type { RuleSet } from '../stability/rule-set.ts';

/** A clause by its set, number and words. */
export interface ClauseNamed {
  readonly ruleSet: string;
  readonly clause: string;
  readonly printed: string;
  readonly words: string;
}

/** What the clauses that judge say of one condition, its figures taken as certain. */
export interface ClauseCheck {
  readonly met: boolean;
  readonly failing: readonly ClauseNamed[];
  readonly judged: readonly ClauseVerdict[];
}

/**
 * Only clauses that judge count: one from memory, one that lacks a figure, a set she is outside of
 * limit nothing. Throws `loading-no-limit` where none is left.
 */
export function checkClauses(sets: readonly RuleSet[], evidence: ConditionEvidence): ClauseCheck {
  const judged = judgeCondition(sets, evidence)
    .flatMap(({ clauses }) => clauses)
    .filter(({ verdict }) => verdict !== 'not-judged' && verdict !== 'not-asked');
  if (judged.length === 0) {
    const names = sets.map(({ id }) => id).join(', ');
    throw new Fault('loading-no-limit', evidence.name, names);
  }
  const failing = judged.filter(({ verdict }) => verdict === 'not-met').map(named);
  return { met: failing.length === 0, failing, judged };
}

function named({ ruleSet, clause, printed, words }: ClauseVerdict): ClauseNamed {
  return { ruleSet, clause, printed, words };
}
