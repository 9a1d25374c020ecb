import { Fault } from '#core/fault/fault.ts';
import type { RecordFile, WhoWrites } from './record-file.ts';
import type { Rejected } from './watch-link.ts';

const RECEIVER: WhoWrites = { author: 'receiver', role: 'receiver' };
/** Rejections a full disk may keep waiting; a day has some dozens. */
const MOST_UNWRITTEN = 1000;

/** What the watch left out becomes lines, in order; what a full disk does not take waits until it does. */
export class Rejections {
  readonly #record: Pick<RecordFile, 'append'>;
  readonly #estimator: string;
  readonly #warn: (error: Error) => void;
  #unwritten: Rejected[] = [];
  #told = false;

  constructor(record: Pick<RecordFile, 'append'>, estimator: string, warn: (error: Error) => void) {
    this.#record = record;
    this.#estimator = estimator;
    this.#warn = warn;
  }

  add(rejected: readonly Rejected[]): void {
    this.#unwritten.push(...rejected);
    if (this.#unwritten.length > MOST_UNWRITTEN)
      this.#unwritten.splice(0, this.#unwritten.length - MOST_UNWRITTEN);
    this.write();
  }

  /** Writes what waits; to be tried again now and then. */
  write(): void {
    for (;;) {
      const [first] = this.#unwritten;
      if (first === undefined) return;
      const { instruments } = first;
      const body = { ...first, instruments: instruments && [...instruments] };
      try {
        this.#record.append('disturbance', { ...body, estimator: this.#estimator }, RECEIVER);
      } catch (error) {
        if (!(error instanceof Fault)) throw error;
        if (!this.#told) this.#warn(error);
        this.#told = true;
        return;
      }
      this.#told = false;
      this.#unwritten.shift();
    }
  }
}
