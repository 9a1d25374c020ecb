import { type SelfCheck, selfChecks } from '../calibration/self-check.ts';
import type { SessionState } from './session.ts';

/** A moment is that of the first state again within so much, t·m: rounding. */
const SAME_MOMENT_TM = 1e-6;

/**
 * Does each sensor come back to what it showed first, when the weights do? The last reading of the
 * first arrangement against the first reading; empty where it was never read again.
 */
export function sessionSelfChecks({ states }: Pick<SessionState, 'states'>): SelfCheck[] {
  const first = states[0];
  if (first?.reading == null) return [];
  const again = states.findLast(
    ({ state, reading, heelingMomentTM }) =>
      state > 0 &&
      reading !== null &&
      Math.abs(heelingMomentTM - first.heelingMomentTM) < SAME_MOMENT_TM,
  );
  if (again?.reading == null) return [];
  const after = again.reading.instruments;
  return selfChecks(
    first.reading.instruments.map(({ instrument, heelDeg, standardErrorDeg }) => {
      const own = after.find((one) => one.instrument === instrument);
      return {
        instrument,
        beforeDeg: heelDeg,
        beforeErrorDeg: standardErrorDeg,
        afterDeg: own?.heelDeg ?? null,
        afterErrorDeg: own?.standardErrorDeg ?? null,
        noiseDeg: 0,
        certificateNoiseDeg: null,
      };
    }),
  );
}
