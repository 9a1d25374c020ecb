import type { FaultReport } from '../fault/fault.ts';
import type { PlainUncertain } from '../numerics/coverage.ts';
import type { CauseReason } from '../reduction/causes.ts';
import type { RingDownEvidence } from '../reduction/ring-down-evidence.ts';
import type { SafetyFact } from '../shift/safety.ts';
import type { RepeatedStates } from './repeated-states.ts';
import type { ResultAgreement } from './result-agreement.ts';
import type { ResultRingDowns } from './result-ring-downs.ts';

/**
 * What the day has given so far, as plain JSON data for screens and reports. Nothing is rounded.
 * A value stands with one standard uncertainty, its degrees of freedom (null: not limited by a
 * count of readings) and half the width of its 95 % interval by Student's t, in the same unit.
 */
export type ResultValue = PlainUncertain;

/** GM by one way of taking the metacentre. */
export interface GmAnswer {
  readonly gmFluidM: ResultValue;
  /** KM less fluid GM: a virtual KG, the free surface of the tanks still in it. Null: KM not given. */
  readonly kgFluidM: ResultValue | null;
  /** Share of each cause in the uncertainty, largest first. */
  readonly budget: readonly {
    readonly cause: string;
    /** One standard uncertainty this cause alone gives to GM, mm; and to KG, mm, where KM is known. */
    readonly gmMm: number;
    readonly kgMm: number | null;
    readonly degreesOfFreedom: number | null;
  }[];
}

/** One arrangement as it stands in the plot. A put-back reading stands in no fit but its own. */
export interface ResultPoint {
  readonly state: number;
  /** Line number of the accepted reading; null where only hand readings stand. */
  readonly readingLine: number | null;
  readonly heelingMomentTM: number;
  /** The same with rise of weights and, in that answer, the metacentre's movement taken out. */
  readonly momentFittedTM: number;
  /** Mean of the instruments after their intercepts are taken off, and the line there. */
  readonly tangent: number;
  readonly fittedTangent: number;
  /** Seen less fitted, degrees. */
  readonly leftOverDeg: number;
  /** What is to be said beside its instruments, in words: warming up, warmth moved, coarse counts. */
  readonly flags: readonly string[];
  /** One standard error the reading claims for itself, degrees; null for hand readings alone. */
  readonly claimedErrorDeg: number | null;
  readonly byInstrument: readonly {
    readonly instrument: string;
    readonly heelDeg: number;
    readonly tangent: number;
    readonly leftOverDeg: number;
  }[];
}

export interface ResultInstrument {
  readonly instrument: string;
  readonly label: string;
  readonly readByHand: boolean;
  /** Null: used. Otherwise why it is left out of GM. */
  readonly refused: string | null;
  readonly readings: number;
  /** Its share in the mean of a state that all are read in; null while there is no line. */
  readonly weight: number | null;
  /** Heel it shows at no moment, degrees: the list and its own mounting together. */
  readonly interceptDeg: ResultValue | null;
  /** GM from this instrument alone, m. */
  readonly gmAloneM: ResultValue | null;
}

/** A shape looked for in the points. `probability` is that of so much by chance in a good test. */
export interface ResultShape {
  readonly shape: string;
  readonly seen: boolean;
  /** In words, with what to do; also when it could not be looked for, and why. */
  readonly words: string;
  readonly statistic: { readonly name: string; readonly value: number } | null;
  readonly probability: number | null;
  /** States the shape points at. */
  readonly states: readonly number[];
}

/** What may have made the shapes, or hides beside them, with what speaks for it and against it. */
export interface ResultCause {
  readonly cause: string;
  readonly words: string;
  readonly todo: string;
  /** Natural logarithm of how much better all evidence is explained by it than by nothing wrong. */
  readonly support: number;
  readonly evidence: readonly CauseReason[];
  readonly states: readonly number[];
  readonly instrument: string | null;
  readonly weight: string | null;
}

export interface SessionResult {
  readonly version: 1;
  /** Counts up with each change of an earlier line (`changesOf`): 1 is the result as first written. */
  readonly issue: number;
  /** Why there is no line yet, or null. */
  readonly refused: FaultReport | null;
  /** Hand readings that give no heel. */
  readonly leftOut: readonly {
    readonly state: number;
    readonly instrument: string;
    readonly fault: FaultReport;
  }[];
  readonly statesRead: number;
  readonly statesNeeded: number;
  /** Which of the answers is the headline. */
  readonly headline: 'classical' | 'metacentre-movement' | null;
  /** The headline's fluid GM. */
  readonly gmFluidM: ResultValue | null;
  readonly classical: GmAnswer | null;
  /** With the metacentre's movement (c2) taken out; null where c2 is not known. */
  readonly metacentreMovement: GmAnswer | null;
  readonly line: {
    /** Tangent of heel per t.m. */
    readonly slopePerTM: ResultValue;
    /** Mean of the instruments' intercepts. */
    readonly interceptTangent: number;
    /** Standard deviation from state to state that all instruments share, and of one reading of one. */
    readonly stateDeviationDeg: number | null;
    readonly readingDeviationDeg: number | null;
  } | null;
  readonly points: readonly ResultPoint[];
  readonly instruments: readonly ResultInstrument[];
  readonly diagnosis: {
    /** 'no trouble seen in the plot', or what is seen. */
    readonly verdict: string;
    readonly troubleSeen: boolean;
    readonly shapes: readonly ResultShape[];
    /** What her period and damping say apart from the plot. */
    readonly byRoll: readonly RingDownEvidence[];
    /** What may be wrong, the likeliest first; empty: nothing is named without evidence. */
    readonly causes: readonly ResultCause[];
  } | null;
  readonly agreement: ResultAgreement;
  readonly ringDowns: ResultRingDowns | null;
  /** Against what readings of the same arrangement claim; null: none was read again. */
  readonly repeats: RepeatedStates | null;
  /** What the plot cannot show, with the evidence taken instead. */
  readonly cannotShow: readonly { readonly what: string; readonly evidence: string }[];
  /** GM with every voided reading put back; null when none was voided. */
  readonly withVoidedPutBack: {
    readonly readings: number;
    readonly gmFluidM: ResultValue | null;
    readonly refused: FaultReport | null;
  } | null;
  /** GM without readings put back or taken over overruled time; null where there is none. */
  readonly withoutOverruled: {
    readonly readings: number;
    readonly gmFluidM: ResultValue | null;
    readonly refused: FaultReport | null;
  } | null;
  /** Heel predicted before each shift and seen after it. */
  readonly predictions: readonly {
    readonly state: number;
    readonly predictedHeelDeg: number;
    readonly predictedStandardErrorDeg: number;
    /** Null: by the guess of GM, not limited by a count of readings. */
    readonly predictedDegreesOfFreedom: number | null;
    readonly seenHeelDeg: number;
    readonly differenceDeg: number;
    /** Difference over its standard error. */
    readonly ratio: number;
    readonly words: string;
  }[];
  /** Reasons to stop, weight back and people off; and advice. */
  readonly safety: readonly SafetyFact[];
  /** Only where a simulator declared the truth. */
  readonly truth: {
    readonly gmFluidM: number;
    /** Headline less truth, mm. */
    readonly differenceMm: number | null;
    readonly insideInterval95: boolean | null;
  } | null;
}
