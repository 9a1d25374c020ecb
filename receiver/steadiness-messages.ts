import type { ShakingMark } from '#core/sample/shaking.ts';
import type {
  NotUsed,
  TakenReading,
  WatchPicture,
  WatchSettings,
} from '#core/steadiness/watch-types.ts';

/**
 * Between the receiver and its steadiness worker, as structured clones through `postMessage`.
 * Both ends are this program, so the messages are typed and not checked again. The worker is
 * started with the first settings as `workerData`; everything is in receiver seconds.
 */
export type ToSteadinessWorker =
  /** New instruments or settings: a new watch; what the day has taught is gone with the old one. */
  | { readonly type: 'watch'; readonly settings: WatchSettings }
  | { readonly type: 'begin-state'; readonly atS: number }
  | { readonly type: 'carrying'; readonly atS: number }
  /** The reading of the present state stands in the record. */
  | { readonly type: 'accepted' }
  | {
      readonly type: 'target';
      readonly standardErrorDeg: number;
      readonly missingDeg: number;
    }
  /** Rejected time that a person answers for; null: of all instruments. */
  | {
      readonly type: 'overrule';
      readonly fromS: number;
      readonly toS: number;
      readonly instruments: readonly string[] | null;
    }
  /** Smoothed samples of one instrument, in order; null: missing. */
  | {
      readonly type: 'samples';
      readonly instrument: string;
      readonly atS: readonly number[];
      readonly heelDeg: readonly (number | null)[];
      /** How they shook before they were smoothed, second by second. */
      readonly shaking?: readonly ShakingMark[];
    }
  /** Answered by `picture` with the same number. */
  | { readonly type: 'picture'; readonly number: number; readonly nowS: number }
  /** Answered by `reading` or `not-steady` with the same number. */
  | { readonly type: 'take-reading'; readonly number: number; readonly nowS: number };

export type FromSteadinessWorker =
  | {
      readonly type: 'picture';
      readonly number: number;
      readonly nowS: number;
      readonly picture: WatchPicture;
    }
  /** Disturbances that have ended: one record line each. Said by what was told, not by who asks. */
  | { readonly type: 'finished'; readonly finished: readonly NotUsed[] }
  | { readonly type: 'reading'; readonly number: number; readonly reading: TakenReading }
  | { readonly type: 'not-steady'; readonly number: number; readonly whyNot: string }
  /** A message could not be served; the watch goes on. */
  | {
      readonly type: 'fault';
      readonly code: string;
      readonly where: string;
      readonly found: string;
    };
