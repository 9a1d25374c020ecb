import type { Firmata } from 'firmata-io';
import type { Clock } from '#core/time/clock.ts';
import type { ScanPlan } from '../scan-plan.ts';
import type { FrameListener, ScanFeed } from './scan-feed.ts';
import { BUS_BITS, type ScanStep } from './scan-message.ts';

/** StandardFirmata 2.5.9 keeps this many continuous reads. */
const MOST_CONTINUOUS_READS = 8;

/**
 * Scans of a board that does not run our firmware, without promises: Firmata reads the registers
 * over and over at its sampling interval, and the host puts the replies of one round together and
 * stamps them with its own clock. Registers to be written in turn are written after each round.
 */
export class ContinuousFeed implements ScanFeed {
  readonly #io: Firmata;
  readonly #clock: Clock;
  readonly #listener: FrameListener;
  #steps: readonly ScanStep[] = [];
  #readSteps: readonly number[] = [];
  #got = new Map<number, Uint8Array>();
  #sequence = 0;
  #startedS = 0;

  constructor(io: Firmata, clock: Clock, listener: FrameListener) {
    this.#io = io;
    this.#clock = clock;
    this.#listener = listener;
  }

  async start(plan: ScanPlan, periodUs: number): Promise<void> {
    this.#steps = plan.steps;
    this.#readSteps = [...plan.steps.keys()].filter((k) => plan.steps[k]!.readCount > 0);
    if (this.#readSteps.length > MOST_CONTINUOUS_READS) {
      throw new RangeError(`${this.#readSteps.length} continuous reads`);
    }
    this.#startedS = this.#clock.monotonicS();
    this.#io.setSamplingInterval(Math.round(periodUs / 1000));
    for (const index of this.#readSteps) {
      const { address, register, readCount } = plan.steps[index]!;
      this.#io.i2cConfig({ delay: 0, address, settings: { stopTX: false } });
      const receive = (bytes: number[]) => this.#receive(index, bytes);
      if (register === null) this.#io.i2cRead(address, readCount, receive);
      else this.#io.i2cRead(address, register, readCount, receive);
    }
  }

  async stop(): Promise<void> {
    for (const address of new Set(this.#steps.map((step) => step.address))) {
      this.#io.i2cStop(address);
    }
  }

  #receive(index: number, bytes: number[]): void {
    // Firmata reads in the order it was asked in. A reply out of order begins the next round: the
    // one before lacks its last replies and is given as it is.
    if ([...this.#got.keys()].some((got) => got >= index)) this.#finish();
    this.#got.set(index, Uint8Array.from(bytes));
    if (index === this.#readSteps.at(-1)) this.#finish();
  }

  #finish(): void {
    const sequence = this.#sequence;
    this.#sequence += 1;
    const bytes: number[] = [];
    let failedSteps = 0;
    for (const index of this.#readSteps) {
      const { readCount, fromFrameBefore } = this.#steps[index]!;
      const got = this.#got.get(index);
      const whole = got?.length === readCount && !(fromFrameBefore && sequence === 0);
      if (!whole) failedSteps |= 1 << index;
      bytes.push(...(whole ? got : new Uint8Array(readCount)));
    }
    this.#got = new Map();
    for (const { address, register, readCount, write, when } of this.#steps) {
      const due = when === 'always' || (when === 'odd') === (sequence % 2 === 1);
      if (readCount > 0 || !due) continue;
      this.#io.i2cWrite(address, register === null ? [...write] : [register, ...write]);
    }
    this.#listener.frame({
      sequence: sequence % 65_536,
      boardUs: Math.round((this.#clock.monotonicS() - this.#startedS) * 1e6) % 2 ** 32,
      durationUs: 0,
      failedSteps,
      leftOut: 0,
      bus: failedSteps === 0 ? 0 : BUS_BITS.addressNotAcknowledged,
      boardStart: '',
      resetCounterLow: 0,
      bytes: Uint8Array.from(bytes),
    });
  }
}
