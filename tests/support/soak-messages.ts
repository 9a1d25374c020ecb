import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import type { Channel } from '#core/sample/stream-item.ts';
import type { Hello, Simulate } from '#core/wire/link-message.ts';

/** The most an order may ask of a simulated vessel; the pace really held is said in each status. */
export const MOST_PACE_ASKED = 50;

/** One scan as a board would send it: counters as they wrap, and one count a channel. */
export interface SoakScan {
  readonly board: string;
  readonly sequence: number;
  readonly boardUs: number;
  /** Station time of its arrival. */
  readonly arrivedS: number;
  readonly counts: readonly (number | null)[];
}

export interface SoakBoard {
  readonly board: string;
  readonly channels: readonly Channel[];
}

export interface SoakOpening {
  readonly type: 'open';
  readonly dataFolder: string;
  readonly receiverUrl: string;
  /** Lets the station in, once. */
  readonly code: string;
  readonly mountings: readonly Mounting[];
  readonly certificates: readonly Certificate[];
  readonly simulated: NonNullable<Hello['simulated']>;
  readonly periodUs: number;
  readonly boards: readonly SoakBoard[];
}

/** From the day to the board side without ports (`soak-station.ts`). */
export type ToSoakStation =
  | SoakOpening
  | {
      readonly type: 'scans';
      readonly untilS: number;
      /** In the order of their arrival. */
      readonly scans: readonly SoakScan[];
      readonly carrying: readonly string[];
      readonly settledState: number;
    }
  | { readonly type: 'unplugged'; readonly board: string }
  | { readonly type: 'finish' };

export type FromSoakStation =
  | { readonly type: 'ready' }
  | { readonly type: 'taken'; readonly untilS: number }
  | { readonly type: 'held'; readonly bytes: number }
  | { readonly type: 'simulate'; readonly order: Simulate }
  | { readonly type: 'fault'; readonly code: string; readonly found: string }
  | { readonly type: 'finished'; readonly samples: number; readonly unsent: number };
