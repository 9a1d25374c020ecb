import { Worker } from 'node:worker_threads';
import { FAULTS, Fault, type FaultCode } from '#core/fault/fault.ts';
import type {
  NotUsed,
  TakenReading,
  WatchPicture,
  WatchSettings,
} from '#core/steadiness/watch-types.ts';
import { programFile } from './program.ts';
import type { FromSteadinessWorker, ToSteadinessWorker } from './steadiness-messages.ts';

/** Wall time an answer may take; estimating an hour takes a fraction of it. */
const ANSWER_WITHIN_MS = 10_000;
/** A worker that owes a picture this long is stuck, and a new one takes its place. */
const STUCK_AFTER_MS = 30_000;
const MOST_WORKER_MB = 512;
const RESTART_AFTER_MS = 1000;

export interface SteadinessHeard {
  readonly picture: (picture: WatchPicture) => void;
  /** Disturbances that have ended. */
  readonly finished: (finished: readonly NotUsed[]) => void;
  /** The worker died and a new one, knowing nothing, runs in its place. */
  readonly restarted: () => void;
}

interface Waiting {
  readonly resolve: (reading: TakenReading) => void;
  readonly reject: (fault: Fault) => void;
  readonly timer: NodeJS.Timeout;
}

/** The steadiness worker as the main loop sees it: samples in, pictures and readings out, nothing waited for. */
export class SteadinessLink {
  readonly #heard: SteadinessHeard;
  readonly #waiting = new Map<number, Waiting>();
  #settings: WatchSettings;
  #worker: Worker;
  #number = 0;
  #pictureAsked: number | null = null;
  #pictureTimer: NodeJS.Timeout | undefined;
  #closed = false;

  constructor(settings: WatchSettings, heard: SteadinessHeard) {
    this.#settings = settings;
    this.#heard = heard;
    this.#worker = this.#started();
  }

  watch(settings: WatchSettings): void {
    this.#settings = settings;
    this.post({ type: 'watch', settings });
  }

  post(message: ToSteadinessWorker): void {
    this.#worker.postMessage(message);
  }

  /** Asks for a picture unless one is still being made: a slow worker gets fewer, never a queue. */
  askPicture(nowS: number): void {
    if (this.#pictureAsked !== null) return;
    this.#number += 1;
    this.#pictureAsked = this.#number;
    clearTimeout(this.#pictureTimer);
    const asked = this.#number;
    this.#pictureTimer = setTimeout(() => {
      if (this.#pictureAsked === asked) this.#replace();
    }, STUCK_AFTER_MS);
    this.post({ type: 'picture', number: this.#number, nowS });
  }

  /** The reading of the present state; rejects with `act-not-steady` and the reason. */
  takeReading(nowS: number): Promise<TakenReading> {
    this.#number += 1;
    const number = this.#number;
    this.post({ type: 'take-reading', number, nowS });
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => {
        this.#waiting.delete(number);
        reject(new Fault('act-not-steady', 'take-reading', 'the estimate took too long'));
        this.#replace();
      }, ANSWER_WITHIN_MS);
      this.#waiting.set(number, { resolve, reject, timer });
    });
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#pictureTimer);
    await this.#worker.terminate();
  }

  #started(): Worker {
    const worker = new Worker(programFile('steadiness-worker'), {
      workerData: this.#settings,
      resourceLimits: { maxOldGenerationSizeMb: MOST_WORKER_MB },
    });
    worker.on('message', (message: FromSteadinessWorker) => this.#hear(message));
    worker.on('error', (error) => {
      console.error(`steadiness worker: ${error.message}`);
    });
    worker.on('exit', () => this.#exited());
    return worker;
  }

  /** Ends a worker that does not answer; its end starts the next. */
  #replace(): void {
    void this.#worker.terminate();
  }

  #exited(): void {
    clearTimeout(this.#pictureTimer);
    this.#pictureAsked = null;
    for (const number of [...this.#waiting.keys()])
      this.#refuse(number, 'the estimator was restarted');
    if (this.#closed) return;
    setTimeout(() => {
      if (this.#closed) return;
      this.#worker = this.#started();
      this.#heard.restarted();
    }, RESTART_AFTER_MS);
  }

  #hear(message: FromSteadinessWorker): void {
    switch (message.type) {
      case 'picture':
        if (message.number === this.#pictureAsked) this.#pictureAsked = null;
        this.#heard.picture(message.picture);
        return;
      case 'finished':
        this.#heard.finished(message.finished);
        return;
      case 'reading':
        this.#taken(message.number)?.resolve(message.reading);
        return;
      case 'not-steady':
        this.#refuse(message.number, message.whyNot);
        return;
      case 'fault':
        // One of its messages was bad; whoever waits for an answer runs into the deadline.
        this.#pictureAsked = null;
        console.error(`steadiness worker: ${faultWords(message.code)} (${message.found})`);
    }
  }

  #refuse(number: number, why: string): void {
    this.#taken(number)?.reject(new Fault('act-not-steady', 'take-reading', why));
  }

  #taken(number: number): Waiting | undefined {
    const waiting = this.#waiting.get(number);
    this.#waiting.delete(number);
    clearTimeout(waiting?.timer);
    return waiting;
  }
}

function faultWords(code: string): string {
  return Object.hasOwn(FAULTS, code) ? FAULTS[code as FaultCode].means : code;
}
