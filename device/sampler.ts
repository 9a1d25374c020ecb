import type { FaultCode } from '#core/fault/fault.ts';
import { MOST_SAMPLES_IN_BLOCK } from '#core/sample/stream-item.ts';
import type { StreamWriter } from './stream-writer.ts';
import type { ScanTime } from './unwrap.ts';

/** One scan of a board, its counters unwrapped and its bytes read by the drivers. */
export interface Sample {
  readonly time: ScanTime;
  /** One count a channel, in the order of the opening; null when it was not due or not readable. */
  readonly counts: readonly (number | null)[];
  readonly faults: readonly { readonly channel: number; readonly code: FaultCode }[];
  /** Scans the board left out since the scan before. */
  readonly skipped: number;
  readonly arrivedS: number;
}

/** Blocks are closed at half a second: long enough to be small on disk, short enough to be live. */
const BLOCK_US = 500_000;
const LONGEST_BLOCK_US = 1_000_000;
const MOST_FAULTS_IN_BLOCK = 4096;

/** Gathers the scans of one stream into blocks: integers as they came, one column a channel. */
export class Sampler {
  readonly #writer: StreamWriter;
  readonly #channelCount: number;
  readonly #periodUs: number;
  #samples: Sample[] = [];
  #faultCount = 0;

  constructor(writer: StreamWriter, shape: { channelCount: number; periodUs: number }) {
    this.#writer = writer;
    this.#channelCount = shape.channelCount;
    this.#periodUs = shape.periodUs;
  }

  add(sample: Sample): void {
    if (sample.counts.length !== this.#channelCount) {
      throw new RangeError(`${sample.counts.length} counts for ${this.#channelCount} channels`);
    }
    const first = this.#samples[0];
    if (
      first !== undefined &&
      (sample.time.boardUs - first.time.boardUs > LONGEST_BLOCK_US ||
        this.#faultCount + sample.faults.length > MOST_FAULTS_IN_BLOCK)
    ) {
      this.flush();
    }
    this.#samples.push(sample);
    this.#faultCount += sample.faults.length;
    const spanUs = sample.time.boardUs - this.#samples[0]!.time.boardUs + this.#periodUs;
    if (spanUs >= BLOCK_US || this.#samples.length >= MOST_SAMPLES_IN_BLOCK) this.flush();
  }

  /** Writes what has been gathered, at the end of a stream or when a block is full. */
  flush(): void {
    const samples = this.#samples;
    const first = samples[0];
    const last = samples[samples.length - 1];
    if (first === undefined || last === undefined) return;
    this.#samples = [];
    this.#faultCount = 0;
    const stepSequence = steps(samples.map((sample) => sample.time.sequence));
    const unbroken = stepSequence.every((step, k) => k === 0 || step === 1);
    this.#writer.samples({
      type: 'samples',
      firstSequence: first.time.sequence,
      firstBoardUs: first.time.boardUs,
      stepUs: steps(samples.map((sample) => sample.time.boardUs)),
      ...(unbroken ? {} : { stepSequence }),
      columns: Array.from({ length: this.#channelCount }, (_, channel) =>
        samples.map((sample) => sample.counts[channel] ?? null),
      ),
      faults: samples.flatMap((sample, k) =>
        sample.faults.map(({ channel, code }): [number, number, FaultCode] => [k, channel, code]),
      ),
      skipped: samples.reduce((sum, sample) => sum + sample.skipped, 0),
      arrivedStationS: last.arrivedS,
    });
  }
}

function steps(values: readonly number[]): number[] {
  return values.map((value, k) => (k === 0 ? 0 : value - values[k - 1]!));
}
