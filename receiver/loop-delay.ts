import { type IntervalHistogram, monitorEventLoopDelay } from 'node:perf_hooks';

const RESOLUTION_MS = 5;
const WINDOW_MS = 60_000;
const NS_A_MS = 1_000_000;

/** How long the loop was held, in milliseconds, over the last minute or two. */
export interface LoopDelayFigures {
  readonly loopDelayP99Ms: number;
  readonly loopDelayMostMs: number;
}

/**
 * Measures how late the program's loop comes to a timer, for `/health`: what holds it also holds
 * every acknowledgement and every screen.
 */
export class LoopDelay {
  readonly #histogram: IntervalHistogram = monitorEventLoopDelay({ resolution: RESOLUTION_MS });
  readonly #timer: NodeJS.Timeout;
  #before: LoopDelayFigures = { loopDelayP99Ms: 0, loopDelayMostMs: 0 };

  constructor() {
    this.#histogram.enable();
    this.#timer = setInterval(() => {
      this.#before = this.#now();
      this.#histogram.reset();
    }, WINDOW_MS);
    this.#timer.unref();
  }

  /** The worse of the minute before and the one that runs. */
  figures(): LoopDelayFigures {
    const now = this.#now();
    return {
      loopDelayP99Ms: Math.max(now.loopDelayP99Ms, this.#before.loopDelayP99Ms),
      loopDelayMostMs: Math.max(now.loopDelayMostMs, this.#before.loopDelayMostMs),
    };
  }

  stop(): void {
    clearInterval(this.#timer);
    this.#histogram.disable();
  }

  /** The histogram counts from timer to timer, so that an idle loop reads one interval. */
  #now(): LoopDelayFigures {
    if (this.#histogram.count === 0) return { loopDelayP99Ms: 0, loopDelayMostMs: 0 };
    const over = (ns: number) => Math.max(0, ns / NS_A_MS - RESOLUTION_MS);
    return {
      loopDelayP99Ms: over(this.#histogram.percentile(99)),
      loopDelayMostMs: over(this.#histogram.max),
    };
  }
}
