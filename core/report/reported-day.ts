import type { KnownHead } from '../record/known-head.ts';
import type { DayReduction } from '../session/day-reduction.ts';
import type { Issue } from '../session/issues.ts';
import type { SessionState } from '../session/session.ts';
import type { SessionResult } from '../session/session-result.ts';
import type { SessionRoll } from '../session/session-roll.ts';

/** The heel by one instrument in the window of an accepted reading, as the estimator was given it. */
export interface ReadingTrace {
  readonly state: number;
  readonly instrument: string;
  /** Receiver time; same length as `heelDeg`, null where a sample is missing. */
  readonly atS: readonly number[];
  readonly heelDeg: readonly (number | null)[];
}

/** Everything a document on a recorded day is written from; all of it follows from the record's bytes. */
export interface ReportedDay {
  readonly session: SessionState;
  readonly result: SessionResult;
  readonly roll: SessionRoll;
  /** The whole day by the desk's own reduction, with the hull where one was entered. */
  readonly reduction: DayReduction;
  readonly issues: readonly Issue[];
  readonly head: KnownHead;
  /** Moment of the last line (ISO 8601). */
  readonly lastWall: string;
  /** SHA-256 of the whole file, hex. */
  readonly recordSha256: string;
  readonly program: string;
  readonly traces: readonly ReadingTrace[];
  readonly photographs: readonly {
    readonly line: number;
    readonly caption: string;
    /** JPEG, base64. */
    readonly jpeg: string;
  }[];
  /** Sample blocks of the record, and samples lost on the way by what the streams say. */
  readonly sampleBlocks: number;
}
