import type { FaultReport } from '../fault/fault.ts';
import { type Change, changesOf } from './changes.ts';
import { headlineGm } from './headline.ts';
import type { SessionState } from './session.ts';
import { sessionOfIssue } from './session-of-issue.ts';
import type { ResultValue } from './session-result.ts';

/** Of more the first and the newest are told. */
export const MOST_ISSUES_TOLD = 40;

/** One issue of the result, and what made it another than the one before. */
export interface Issue {
  readonly issue: number;
  /** Null: as first written. */
  readonly change: Change | null;
  readonly gmFluidM: ResultValue | null;
  readonly refused: FaultReport | null;
}

/**
 * The issues of the result, oldest first, the last being the one in force: the same readings, with
 * one more of the changes each. Issues between the first and the newest may be left out of the list.
 */
export function issuesOfSession(session: SessionState): Issue[] {
  const changes = changesOf(session);
  const told: Issue[] = [];
  for (let issue = 1; issue <= changes.length + 1; issue++) {
    if (issue > 1 && issue <= changes.length + 2 - MOST_ISSUES_TOLD) continue;
    const change = changes[issue - 2] ?? null;
    told.push({ issue, change, ...headlineGm(sessionOfIssue(session, issue)) });
  }
  return told;
}
