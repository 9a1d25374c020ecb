import type { LivePicture } from './screen-message.ts';

const KEPT_BACK = 'kept back while a pendulum is read by eye';

/**
 * A live picture for somebody who reads by eye: that the sensors are heard and steady, and nothing
 * of the heel. It is a whole one, so that the traces a screen had are gone.
 */
export function blindPicture(live: LivePicture): LivePicture {
  return {
    ...live,
    whole: true,
    instruments: live.instruments.map((one) => ({
      ...one,
      reason: KEPT_BACK,
      estimate: null,
      trace: { atS: [], heelDeg: [] },
    })),
    joined: { ...live.joined, reason: KEPT_BACK, estimate: null, inAMinuteDeg: null },
  };
}
