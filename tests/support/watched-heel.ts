import { createWatch } from '#core/steadiness/watch.ts';
import type { Watch, WatchPicture, WatchSettings } from '#core/steadiness/watch-types.ts';

/** A watch fed with simulated instruments at 10 Hz, as smoothing would hand them on. */
export interface WatchedHeel {
  readonly watch: Watch;
  nowS: number;
  /** Feeds these seconds; each instrument's heel at each time, null for a missing sample. */
  feed(
    lengthS: number,
    heelOf: (instrument: string, atS: number) => number | null | undefined,
  ): void;
  /** Every picture taken, twice a second. */
  readonly pictures: { readonly atS: number; readonly picture: WatchPicture }[];
}

const two: WatchSettings = {
  instruments: [
    { instrument: 'fore', label: 'Fore', settlingS: 1, refused: null },
    { instrument: 'aft', label: 'Aft', settlingS: 1, refused: null },
  ],
};

export function watchedHeel(settings: WatchSettings = two): WatchedHeel {
  const watch = createWatch(settings);
  const pictures: { atS: number; picture: WatchPicture }[] = [];
  return {
    watch,
    nowS: 0,
    pictures,
    feed(lengthS, heelOf) {
      const untilS = this.nowS + lengthS;
      for (let tenth = Math.round(this.nowS * 10) + 1; tenth <= Math.round(untilS * 10); tenth++) {
        const atS = tenth / 10;
        for (const { instrument } of settings.instruments) {
          const heel = heelOf(instrument, atS);
          // Undefined: nothing arrives at all, as of a cut line.
          if (heel !== undefined) watch.push(instrument, atS, heel);
        }
        if (tenth % 5 === 0) pictures.push({ atS, picture: watch.picture(atS + 0.5) });
      }
      this.nowS = untilS;
    },
  };
}
