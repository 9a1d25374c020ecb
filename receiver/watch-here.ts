import { createWatch } from '#core/steadiness/watch.ts';
import type { TakenReading, Watch, WatchSettings } from '#core/steadiness/watch-types.ts';
import type { SteadinessHeard } from './steadiness-link.ts';
import type { ToSteadinessWorker } from './steadiness-messages.ts';
import { tellWatch } from './tell-watch.ts';
import type { WatchLink } from './watch-link.ts';

/** The watch without a thread of its own: it does at once what it is told. */
export class WatchHere implements WatchLink {
  readonly #heard: Pick<SteadinessHeard, 'finished' | 'picture'>;
  #watch: Watch;

  constructor(settings: WatchSettings, heard: Pick<SteadinessHeard, 'finished' | 'picture'>) {
    this.#heard = heard;
    this.#watch = createWatch(settings);
  }

  watch(settings: WatchSettings): void {
    this.#watch = createWatch(settings);
  }

  post(message: ToSteadinessWorker): void {
    if (message.type === 'watch') this.watch(message.settings);
    else if (message.type === 'picture') this.askPicture(message.nowS);
    else if (message.type !== 'take-reading') {
      tellWatch(this.#watch, message);
      const finished = this.#watch.finished();
      if (finished.length > 0) this.#heard.finished(finished);
    }
  }

  askPicture(nowS: number): void {
    this.#heard.picture(this.#watch.picture(nowS));
  }

  /** Throws `act-not-steady` with the reason when no reading is offered. */
  reading(nowS: number): TakenReading {
    return this.#watch.reading(nowS);
  }

  async takeReading(nowS: number): Promise<TakenReading> {
    return this.reading(nowS);
  }

  async close(): Promise<void> {}
}
