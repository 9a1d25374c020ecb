import type { FaultReport } from '#core/fault/fault.ts';

/** What the station tells the person who runs it, beside what goes into the streams. */
export type StationEvent =
  | { readonly event: 'station'; readonly station: string; readonly data: string }
  | {
      readonly event: 'board';
      readonly port: string;
      readonly board: string;
      readonly firmware: string;
    }
  | {
      readonly event: 'stream';
      readonly stream: string;
      readonly channels: number;
      readonly periodUs: number;
    }
  | { readonly event: 'stream-closed'; readonly stream: string; readonly reason: string }
  | { readonly event: 'receiver'; readonly url: string; readonly record: string | null }
  | ({ readonly event: 'fault' } & FaultReport);

export type Report = (event: StationEvent) => void;
