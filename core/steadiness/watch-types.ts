import type { ShakingMark } from '../sample/shaking.ts';
import type { HeelEstimate, Verdict } from './estimate.ts';

export interface WatchedInstrument {
  readonly instrument: string;
  /** As one calls it on deck. */
  readonly label: string;
  /** Seconds from a change of heel until the instrument itself has settled (the water tube lags). */
  readonly settlingS: number;
  /** Why it is shown but not used, or null. */
  readonly refused: string | null;
}

export interface WatchSettings {
  readonly instruments: readonly WatchedInstrument[];
  /** A reading is offered when the joined standard error has come down to this. */
  readonly targetStandardErrorDeg?: number;
  /** Where wind or swell put the target out of reach, the best there is is offered after this time. */
  readonly bestAfterS?: number;
  /** But nothing worse than this standard error is ever called steady. */
  readonly worstStandardErrorDeg?: number;
}

/** A stretch of time that is not used, in receiver seconds. The content of a `disturbance` line. */
export interface NotUsed {
  readonly fromS: number;
  readonly toS: number;
  /** In a word: wake, gust, knock, step, silent, stuck, saturated, carrying. */
  readonly kind: string;
  /** Null: all instruments, so it was the vessel. */
  readonly instruments: readonly string[] | null;
  readonly evidence: string;
}

export interface WatchPicture {
  readonly instruments: readonly {
    readonly instrument: string;
    readonly label: string;
    readonly verdict: Verdict;
    readonly reason: string;
    readonly estimate: HeelEstimate | null;
    readonly refused: string | null;
  }[];
  readonly joined: {
    readonly verdict: Verdict;
    readonly reason: string;
    readonly estimate: HeelEstimate | null;
    readonly readable: boolean;
    readonly whyNot: string | null;
    readonly countedS: number;
    /** Standard error the heel would have after one more counted minute; null: cannot be said. */
    readonly inAMinuteDeg: number | null;
    /** Seconds still to count until a reading is offered; null when that cannot be said. */
    readonly remainingS: number | null;
    /** Of the roll as the leading instrument shows it; null before anything is known. */
    readonly rollPeriodS: number | null;
    readonly dampingRatio: number | null;
  };
  /** Of the last two minutes, oldest first; one that goes on ends now. */
  readonly notUsed: readonly NotUsed[];
}

interface Measured {
  readonly heelDeg: number;
  readonly standardErrorDeg: number;
  readonly degreesOfFreedom: number;
}

/** What a `reading` line says of the heel; state, estimator and certificates are its writer's. */
export interface TakenReading {
  readonly fromS: number;
  readonly toS: number;
  readonly countedS: number;
  readonly joined: Measured;
  readonly instruments: readonly (Measured & {
    readonly instrument: string;
    readonly label: string;
    /** Rate of the smoothed samples used. */
    readonly sampleRateHz: number;
  })[];
  readonly rollPeriodS: number | null;
  /** One standard uncertainty of the period as the fit leaves it open, clocks taken as true. */
  readonly rollPeriodUncertaintyS: number | null;
  readonly dampingRatio: number | null;
}

/** Judges steadiness of one vessel's instruments. Times are receiver seconds and do not go back. */
export interface Watch {
  /** A weight has landed, or the zero begins: forget the state before, keep what the day has taught. */
  beginState(atS: number): void;
  /** A weight is lifted: nothing counts until the next state begins. */
  carrying(atS: number): void;
  /** Rejected time of this state that a person answers for: what was measured in it counts. */
  overrule(stretch: Pick<NotUsed, 'fromS' | 'toS' | 'instruments'>): void;
  /**
   * One smoothed sample; null: missing. One not newer than the instrument's last is passed over.
   * Throws `input-shape` for an instrument that is not watched.
   */
  push(instrument: string, atS: number, heelDeg: number | null): void;
  /** How much its samples of a second shook before they were smoothed; what is not watched is passed over. */
  shaken(instrument: string, mark: ShakingMark): void;
  /** How it stands, for a screen: changes nothing, so that nobody's looking changes a reading. */
  picture(nowS: number): WatchPicture;
  /**
   * The reading of the present state; changes nothing. Throws `act-not-steady` with the reason
   * when none is offered.
   */
  reading(nowS: number): TakenReading;
  /** A reading of the present state stands in the record: it teaches the day. */
  accept(): void;
  /**
   * From here on a heel is known well enough at this standard error of the joined instruments.
   * `missingDeg` is what repeated states show every standard error to lack: it is added to each,
   * and no waiting takes it away.
   */
  target(standardErrorDeg: number, missingDeg: number): void;
  /** Both at once. */
  takeReading(nowS: number): TakenReading;
  /** Disturbances that ended since the last call, for the record. */
  finished(): readonly NotUsed[];
}
