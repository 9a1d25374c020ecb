import { lineInForce } from '#core/session/fold-corrections.ts';
import { overrulingRefusal } from '#core/session/fold-overruled.ts';
import type { SessionState } from '#core/session/session.ts';

/** What the architect may do with a line: put fields of it right, or set aside what it decided. */
export type LineAct = 'correct' | 'overrule';

/** Null: nothing can be done with this line now. */
export function lineActOf(session: SessionState, line: number): LineAct | null {
  if (lineInForce(session, line) !== null) return 'correct';
  return overrulingRefusal(session, line) === null ? 'overrule' : null;
}

/** What overruling this line is called, and what follows of it. */
export function overrulingWords(
  session: SessionState,
  line: number,
): { readonly title: string; readonly follows: string } {
  if (session.disturbances.some(({ written }) => written.line === line))
    return {
      title: 'Count this time after all',
      follows:
        'What was measured in it counts for the next reading, which says so; it stays listed with your reason.',
    };
  if (session.states.some(({ voided }) => voided.some((one) => one.voided.line === line)))
    return {
      title: 'Put the reading back',
      follows: 'It stands in the line again. GM without it is told beside the result.',
    };
  return {
    title: 'Let the correction fall away',
    follows: 'What stood there before stands there again, and the result is another issue.',
  };
}
