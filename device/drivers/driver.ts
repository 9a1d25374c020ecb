import type { FaultCode } from '#core/fault/fault.ts';
import type { Bus } from '../bus/bus.ts';

/** One chip on one board, as its driver talks to it. */
export interface Chip {
  readonly bus: Bus;
  readonly address: number;
  /** Board and part, for faults. */
  readonly where: string;
  /** Lets so many seconds pass on the station's clock. */
  waitS(seconds: number): Promise<void>;
}

/** One register read (and written) in each scan, in every one or in turn. */
export interface DriverStep {
  /** Null: the chip has none. */
  readonly register: number | null;
  /** Bytes to read; 0 for a write alone. */
  readonly readCount: number;
  readonly write: readonly number[];
  readonly when: 'always' | 'even' | 'odd';
  /** What is read was set going by the scan before. */
  readonly fromFrameBefore: boolean;
}

/** What came of a step in one scan. */
export type StepAnswer =
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array }
  | { readonly kind: 'not-due' }
  | { readonly kind: 'failed'; readonly code: FaultCode };

/** A register value as the chip gave it, and what is wrong with it. Null without a fault: not due in this scan. */
export interface Count {
  readonly count: number | null;
  readonly fault: FaultCode | null;
}

/**
 * What every driver does: prove that the chip is the one meant, set it up, say what to read in a
 * scan, and take the counts out of the bytes. It converts nothing: core/part/<part>.ts does.
 */
export interface Driver {
  /** Part number in lower case. */
  readonly part: string;
  /** 7-bit addresses the part can have. */
  readonly addresses: readonly number[];
  /** Columns this chip gives, in order. */
  readonly quantities: readonly string[];
  /** It reads one leg of a water tube, of which the other has a chip of its own; its first column is `leg`. */
  readonly isLeg: boolean;
  /** False: what is wired to the chip cannot be told by looking, only by who wired it. */
  readonly foundByLooking: boolean;
  /** Why no other chip may be on its bus; null: others may. */
  readonly aloneBecause: string | null;
  /** Scans in a row with the same counts after which the chip is called stuck; null: rest is natural. */
  readonly stuckAfterScans: number | null;
  /** Largest and smallest count, which mean the end of the range. */
  readonly countRange: { readonly least: number; readonly most: number };
  /** Is it this part at all? Reads only. Rejects with a Fault if not. */
  identify(chip: Pick<Chip, 'bus' | 'address' | 'where'>): Promise<void>;
  /** Proves the identity and sets the chip up from whatever state it is in. Rejects with a Fault. */
  configure(chip: Chip, periodUs: number): Promise<void>;
  /** After a fault: is it still the same chip, set up as before? Rejects with a Fault if not. */
  check(chip: Chip, periodUs: number): Promise<void>;
  steps(periodUs: number): readonly DriverStep[];
  /** Answers in the order of the steps; one count a quantity. */
  counts(answers: readonly StepAnswer[], sequence: number): readonly Count[];
}

/** The count of a step that gave no bytes. */
export function countWithout(answer: Exclude<StepAnswer, { kind: 'bytes' }>): Count {
  return { count: null, fault: answer.kind === 'failed' ? answer.code : null };
}
