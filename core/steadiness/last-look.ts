import { BLOCK_S } from './roll-model.ts';
import type { Track } from './track.ts';
import { type Happening, lastingChange } from './what-happened.ts';

/**
 * A lasting change under this, or under so many standard errors of the heel or standard deviations
 * of her random heel, may stay: the error covers it.
 */
const LEAST_CHANGE_DEG = 0.012;
const LEAST_CHANGE_ERRORS = 3;
const LEAST_CHANGE_WINDS = 3;
/** Under so many roll periods counted no reading is near, and no last look is taken. */
const LAST_LOOK_PERIODS = 4;

/**
 * Before a reading is near: has she gone over to another heel in what is counted? Null: not by
 * more than the reading's own error covers. `fromS`: since when.
 */
export function lastLook(
  track: Pick<Track, 'model' | 'periodS' | 'countedS' | 'counted' | 'estimate'>,
): (Pick<Happening, 'kind' | 'sentence'> & { readonly fromS: number }) | null {
  const { model } = track;
  if (model === null || track.countedS < LAST_LOOK_PERIODS * track.periodS) return null;
  const counted = track.counted();
  const errorDeg = track.estimate()?.standardErrorDeg;
  if (counted === null || errorDeg === undefined) return null;
  const found = lastingChange(counted.heelDeg, model);
  if (found === null) return null;
  const windDeg = LEAST_CHANGE_WINDS * Math.hypot(...model.windDeg);
  const leastDeg = Math.max(LEAST_CHANGE_DEG, LEAST_CHANGE_ERRORS * errorDeg, windDeg);
  if (Math.abs(found.sizeDeg) < leastDeg) return null;
  const { kind, sentence } = found;
  return { kind, sentence, fromS: counted.fromS + found.from * BLOCK_S };
}
