import type { Counted } from '../part/counted.ts';
import type { CorrectableBody } from '../record/correctable.ts';
import type { Correction } from '../record/correction.ts';
import type { LaptopState } from '../record/laptop-line.ts';
import type {
  Disturbance,
  Move,
  Place,
  Simulation,
  StopTarget,
  TestOpened,
} from '../record/line.ts';
import type { HandReading, Reading } from '../record/reading-line.ts';
import type { RollConditionLine, RollRunLine } from '../record/roll-line.ts';
import type { Certificate, Mounting } from '../sample/certificate.ts';
import type { SignConfirmed } from '../sample/sign-confirmed.ts';
import type { SurveyState } from './survey-state.ts';

/** Who wrote a line and when, carried beside what it says. */
export interface Written {
  readonly line: number;
  readonly wall: string;
  readonly receiverS: number;
  readonly author: string;
  readonly role: string;
}

export interface VoidedReading {
  readonly reading: Reading;
  readonly written: Written;
  readonly reason: string;
  readonly voided: Written;
}

/** A line that was corrected, as it was written and by what; in force are those not overruled, in order. */
export interface CorrectedLine {
  readonly line: number;
  readonly asWritten: CorrectableBody;
  readonly corrections: readonly {
    readonly written: Written;
    readonly changes: Correction['changes'];
    readonly reason: string;
    readonly overruled: Overruled | null;
  }[];
}

/** By whom and why an earlier line was set aside. */
export interface Overruled {
  readonly written: Written;
  readonly reason: string;
}

/** A reading that was voided and is in force again, or was until it was voided anew. */
export interface PutBackReading extends VoidedReading {
  readonly putBack: Overruled;
}

/** What the line of a shift says, and what it rests on: corrections of weights and places move it. */
export interface ShiftAsWritten {
  readonly moves: readonly Move[];
  readonly heelingMomentTM: number;
  /** Moment of the weights at the places they came to, by the values in force then. */
  readonly ofPlacesTM: number;
  /** Every weight was said to be moved from where it stood. */
  readonly follows: boolean;
}

/** One arrangement of the weights, and what was read of it. State 0 is before any shift. */
export interface ShiftState {
  readonly state: number;
  readonly moves: readonly Move[];
  /** Moment of everything moved since state 0, to starboard positive. */
  /** Of all weights moved since state 0, starboard positive, by the values in force now. */
  readonly heelingMomentTM: number;
  /** Null: no shift led here. */
  readonly asWritten: ShiftAsWritten | null;
  readonly predictedHeelDeg: number | null;
  readonly predictedStandardErrorDeg: number | null;
  /** Of that standard error; null: by the guess of GM, or nothing was predicted. */
  readonly predictedDegreesOfFreedom: number | null;
  readonly begun: Written | null;
  readonly landedS: number | null;
  readonly landed: Written | null;
  readonly reading: Reading | null;
  readonly readingWritten: Written | null;
  readonly voided: readonly VoidedReading[];
  readonly putBack: readonly PutBackReading[];
  readonly handReadings: readonly { reading: HandReading; written: Written }[];
}

/** A run of a roll test; `refused`: a person left it out. */
export interface SessionRollRun {
  readonly written: Written;
  readonly rolled: RollRunLine;
  readonly refused: { readonly written: Written; readonly reason: string } | null;
}

/** What a fold over the lines knows: the same live and in replay. Plain data, sent to screens as it is. */
export interface SessionState {
  readonly record: string | null;
  readonly lines: number;
  /** As in force now, with what was corrected. */
  readonly test: TestOpened | null;
  readonly testOpened: Written | null;
  readonly corrected: readonly CorrectedLine[];
  readonly simulation: Simulation | null;
  readonly mountings: readonly Mounting[];
  readonly certificates: readonly Certificate[];
  /** Certificates no longer in force, oldest first, each with why and by whom it was replaced. */
  readonly replacedCertificates: readonly {
    certificate: Certificate;
    written: Written;
    reason: string;
  }[];
  /** Sensors put down anew or exchanged, with the certificate in force until then; null: none was. */
  readonly remounted: readonly {
    instrument: string;
    certificate: Certificate | null;
    written: Written;
    reason: string;
  }[];
  /** Instruments that were seen to show starboard down, by whom, under which seal. */
  readonly signs: readonly (SignConfirmed & { written: Written })[];
  readonly streams: readonly {
    stream: string;
    board: string;
    boardIsOurs: boolean;
    port: string;
    /** Receiver time it was opened at, and which part each instrument of it is read by. */
    openedS: number;
    /**
     * `counted`: of an instrument on a serial line, whose stream says what its counts stand for.
     * `addresses`: of its chips on the board's bus, in order; none where the stream does not say.
     */
    parts: readonly {
      instrument: string;
      part: string;
      counted?: Counted;
      addresses?: readonly string[];
    }[];
    open: boolean;
    reason: string | null;
    samples: number;
    skipped: number;
  }[];
  readonly faults: readonly { written: Written; code: string; where: string; found: string }[];
  readonly weightsAt: Readonly<Record<string, Place>>;
  /** What the day is waiting for. */
  readonly awaits: 'test' | 'reading' | 'landing' | 'shift' | 'nothing';
  readonly states: readonly ShiftState[];
  readonly disturbances: readonly {
    written: Written;
    disturbance: Disturbance;
    overruled: Overruled | null;
  }[];
  /** When a heel is known well enough, as last told; null: never told. */
  readonly stopTarget: StopTarget | null;
  readonly rollRuns: readonly SessionRollRun[];
  readonly rollCondition: { written: Written; told: RollConditionLine } | null;
  /** What was entered about the vessel, the water and all that is aboard. */
  readonly survey: SurveyState;
  /** Moments marked in every instrument; `samples`: how many each open stream had given until then. */
  readonly timeMarks: readonly {
    mark: number;
    words: string;
    written: Written;
    streams: readonly { stream: string; samples: number }[];
  }[];
  readonly remarks: readonly { written: Written; text: string; line: number | null }[];
  /** What is not well with the receiver's machine and its links now. */
  readonly laptop: readonly { written: Written; state: LaptopState }[];
  readonly people: PeopleState;
  /** Put off until it is resumed; null: it goes on. */
  readonly postponed: { written: Written; reason: string } | null;
  /** Each time it was put off and taken up again. */
  readonly pauses: readonly {
    readonly postponed: { written: Written; reason: string };
    readonly resumed: { written: Written; reason: string };
  }[];
  readonly closed: { written: Written; reason: string } | null;
}

/** Who was let in, what the witness wants settled, what was receipted, sealed and signed. */
export interface PeopleState {
  /** In order of admission; `withdrawn` when they may come in no more. */
  readonly admitted: readonly {
    written: Written;
    person: string;
    role: string;
    name: string;
    way: string;
    withdrawn: Written | null;
  }[];
  readonly asks: readonly {
    written: Written;
    what: 'repeat' | 'objection';
    text: string;
    line: number | null;
    answers: readonly { written: Written; text: string }[];
  }[];
  /** The newest of each key. */
  readonly receipts: readonly {
    written: Written;
    lines: number;
    head: string;
    publicKey: string;
  }[];
  readonly seals: readonly {
    written: Written;
    /** SHA-256 of the seal's line, which signatures are of; null until a line follows it. */
    digest: string | null;
    reason: string;
    signatures: readonly { written: Written; publicKey: string }[];
  }[];
  /** Why a technician may work on instruments during the test; null: they may not. */
  readonly technicianWork: { written: Written; reason: string } | null;
}
