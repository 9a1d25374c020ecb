import type { KnownHead } from '../record/known-head.ts';
import { closingOfSession } from '../session/closing-of-session.ts';
import { type DayReduction, dayReduction } from '../session/day-reduction.ts';
import { type Issue, issuesOfSession } from '../session/issues.ts';
import type { Missing } from '../session/missing.ts';
import { resultOfSession } from '../session/result.ts';
import type { SessionState } from '../session/session.ts';
import type { SessionResult } from '../session/session-result.ts';
import { rollOfSession, type SessionRoll } from '../session/session-roll.ts';
import { surveyMissing } from '../session/survey-missing.ts';
import type { ClosingFound } from '../survey/closing.ts';

/** The heel by one instrument in the window of an accepted reading, as the estimator was given it. */
export interface ReadingTrace {
  readonly state: number;
  readonly instrument: string;
  /** Receiver time; same length as `heelDeg`, null where a sample is missing. */
  readonly atS: readonly number[];
  readonly heelDeg: readonly (number | null)[];
}

/** What a record's bytes say beside what they fold to. */
export interface RecordRead {
  readonly head: KnownHead;
  /** Moment of the last line (ISO 8601). */
  readonly lastWall: string;
  /** SHA-256 of the whole file, hex. */
  readonly recordSha256: string;
  /** Name and version of what wrote the document. */
  readonly program: string;
  readonly traces: readonly ReadingTrace[];
  readonly photographs: readonly {
    readonly line: number;
    readonly caption: string;
    /** JPEG, base64. */
    readonly jpeg: string;
  }[];
}

/** Everything a document on a recorded day is written from; all of it follows from the record's bytes. */
export interface ReportedDay extends RecordRead {
  readonly session: SessionState;
  readonly result: SessionResult;
  readonly roll: SessionRoll;
  /** The whole day by the desk's own reduction, with the hull where one was entered. */
  readonly reduction: DayReduction;
  /** The end of the day against its beginning; null: nothing was taken again. */
  readonly closing: ClosingFound | null;
  readonly missing: readonly Missing[];
  readonly issues: readonly Issue[];
}

/** A pure function of the record; with a hull it takes some seconds. */
export function reportedDay(session: SessionState, read: RecordRead): ReportedDay {
  const result = resultOfSession(session);
  const reduction = dayReduction(session);
  const massPerDraught = reduction.reduction?.float?.massPerDraught ?? null;
  return {
    ...read,
    ...{ session, result, reduction },
    roll: rollOfSession(session, result.gmFluidM),
    closing: closingOfSession(session, massPerDraught),
    missing: surveyMissing(session),
    issues: issuesOfSession(session),
  };
}
