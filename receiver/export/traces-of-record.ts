import type { ReadingTrace } from '#core/report/reported-day.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Clock } from '#core/time/clock.ts';
import { scanRecordFile } from '../commands/verify.ts';
import { LineFollowers } from '../line-followers.ts';
import { LivePath } from '../live-path.ts';
import type { SmoothedHeel } from '../live-streams.ts';
import type { WatchLink } from '../watch-link.ts';

/** Samples of all traces together; sixty readings of six instruments for two minutes are a tenth of it. */
const MOST_SAMPLES = 4_000_000;

/**
 * The smoothed heel in the window of every accepted reading, by the path the receiver itself took,
 * in order of state and of the instruments in the reading. What was read without samples in the
 * record is missing.
 */
export function tracesOfRecord(
  path: string,
  session: SessionState,
  endBytes?: number,
): ReadingTrace[] {
  const windows = session.states.flatMap(({ state, reading }) => {
    if (reading === null) return [];
    const { fromS, toS } = reading;
    return reading.instruments.map(({ instrument }) => ({
      ...{ state, instrument, fromS, toS },
      atS: [] as number[],
      heelDeg: [] as (number | null)[],
    }));
  });
  if (windows.length === 0) return [];
  let samples = 0;
  const take = ({ instrument, atS, heelDeg }: SmoothedHeel) => {
    for (const window of windows) {
      if (window.instrument !== instrument) continue;
      if ((atS.at(-1) ?? 0) < window.fromS || (atS[0] ?? 0) > window.toS) continue;
      atS.forEach((second, k) => {
        if (second < window.fromS || second > window.toS || samples >= MOST_SAMPLES) return;
        samples += 1;
        window.atS.push(second);
        window.heelDeg.push(heelDeg[k] ?? null);
      });
    }
  };
  followSmoothed(path, take, endBytes);
  return windows
    .filter(({ atS }) => atS.length > 0)
    .map(({ state, instrument, atS, heelDeg }) => ({ state, instrument, atS, heelDeg }));
}

/** Every smoothed sample of a record in its order, no state being estimated. */
export function followSmoothed(
  path: string,
  take: (heel: SmoothedHeel) => void,
  endBytes?: number,
): void {
  const followers = new LineFollowers();
  const live = new LivePath(followers, STILL, () => NO_WATCH);
  live.start(STILL);
  live.onSmoothed = take;
  scanRecordFile(
    path,
    (read) => {
      followers.follow(read);
      live.follow(read);
    },
    endBytes,
  );
}

const STILL: Clock = { monotonicS: () => 0, wallMs: () => 0 };
/** Nothing is estimated here. */
const NO_WATCH: WatchLink = {
  watch: () => {},
  post: () => {},
  askPicture: () => {},
  takeReading: () => Promise.reject(new Error('nothing is read here')),
  close: () => Promise.resolve(),
};
