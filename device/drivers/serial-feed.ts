import type { Fault } from '#core/fault/fault.ts';
import type { Channel } from '#core/sample/stream-item.ts';
import type { Count } from './driver.ts';

/** What one sentence or one round of questions gave, in the order of the channels. */
export interface SerialSample {
  readonly counts: readonly Count[];
  /** Station time it was measured at, as near as the line lets one know. */
  readonly atS: number;
  /** Rounds left out since the start, wrapping at 2^16. */
  readonly leftOut: number;
}

export interface SerialListener {
  sample(sample: SerialSample): void;
  /** Something that is not about one sample; the feed goes on. */
  tell(fault: Fault): void;
}

/** What has become known of a line before its stream opens. */
export interface SerialOpening {
  readonly channels: readonly Channel[];
  readonly periodUs: number;
  readonly firmware: string;
}

/** One serial line with instruments that speak for themselves: who they are, then their readings. */
export interface SerialFeed {
  /** Proves that the instruments meant answer. Rejects with a Fault when none does. */
  prove(listener: SerialListener): Promise<SerialOpening>;
  /** Readings are given to the listener from here on. */
  start(): void;
  stop(): void;
}
