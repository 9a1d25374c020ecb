import type {
  Disturbance,
  HandReading,
  LaptopState,
  Move,
  Place,
  Reading,
  Simulation,
  TestOpened,
} from '../record/line.ts';
import type { Certificate, Mounting } from '../sample/certificate.ts';

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

/** One arrangement of the weights, and what was read of it. State 0 is before any shift. */
export interface ShiftState {
  readonly state: number;
  readonly moves: readonly Move[];
  /** Moment of everything moved since state 0, to starboard positive. */
  readonly heelingMomentTM: number;
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
  readonly handReadings: readonly { reading: HandReading; written: Written }[];
}

/** What a fold over the lines knows: the same live and in replay. Plain data, sent to screens as it is. */
export interface SessionState {
  readonly record: string | null;
  readonly lines: number;
  readonly test: TestOpened | null;
  readonly simulation: Simulation | null;
  readonly mountings: readonly Mounting[];
  readonly certificates: readonly Certificate[];
  /** Certificates no longer in force, oldest first, each with why and by whom it was replaced. */
  readonly replacedCertificates: readonly {
    certificate: Certificate;
    written: Written;
    reason: string;
  }[];
  readonly streams: readonly {
    stream: string;
    board: string;
    boardIsOurs: boolean;
    port: string;
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
  readonly disturbances: readonly { written: Written; disturbance: Disturbance }[];
  readonly remarks: readonly { written: Written; text: string; line: number | null }[];
  /** What is not well with the receiver's machine and its links now. */
  readonly laptop: readonly { written: Written; state: LaptopState }[];
  readonly people: PeopleState;
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
