import { Fault, type FaultReport } from '../fault/fault.ts';
import { plainUncertain } from '../numerics/coverage.ts';
import type { TestOpened } from '../record/line.ts';
import type { Answer } from '../reduction/budget.ts';
import type { SessionState } from './session.ts';
import { answerOfRows } from './session-answer.ts';
import type { ResultValue } from './session-result.ts';
import { type DayInstrument, type DayRow, dayRows } from './session-rows.ts';

export interface Answers {
  readonly classical: Answer;
  readonly metacentreMovement: Answer | null;
}

export type Attempt<T> = { answers: T; refused: null } | { answers: null; refused: FaultReport };

export function noTest(): Attempt<Answers> {
  return {
    answers: null,
    refused: { code: 'input-too-few', where: 'session', found: 'no test is open yet' },
  };
}

/** What the work gives, or the fault it is refused with. */
export function attempt<T>(work: () => T): Attempt<T> {
  try {
    return { answers: work(), refused: null };
  } catch (error) {
    if (error instanceof Fault) return { answers: null, refused: error.report };
    throw error;
  }
}

/** GM of these rows, both ways. */
export function answersOf(
  session: SessionState,
  test: TestOpened,
  rows: readonly DayRow[],
  used: readonly DayInstrument[],
): Answers {
  const { metacentreMovementM } = test.particulars;
  return {
    classical: answerOfRows(session, test, rows, used, 0),
    metacentreMovement:
      metacentreMovementM === null
        ? null
        : answerOfRows(session, test, rows, used, metacentreMovementM),
  };
}

/** The headline: with the metacentre's movement taken out where it is known. */
export function headOf({ metacentreMovement, classical }: Answers): Answer {
  return metacentreMovement ?? classical;
}

/** The headline's GM of a session alone, or why there is none. With `voidedToo` of every voided reading too. */
export function headlineGm(
  session: SessionState,
  voidedToo = false,
): { readonly gmFluidM: ResultValue | null; readonly refused: FaultReport | null } {
  const { test } = session;
  if (test === null) return { gmFluidM: null, refused: noTest().refused };
  const found = attempt(() => {
    const { rows, used } = dayRows(session, voidedToo);
    return headOf(answersOf(session, test, rows, used));
  });
  return {
    gmFluidM: found.answers === null ? null : plainUncertain(found.answers.gm),
    refused: found.refused,
  };
}
