import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import { type Answer, known, unknown } from './answer.ts';
import { type Asked, leversOf, stopRad } from './asked.ts';
import type { OpeningState } from './evidence.ts';
import { firstFall, firstRise, greatest } from './lever-features.ts';

/** Heels computed from degrees may differ by a rounding. */
const SLACK_RAD = 1e-9;

/**
 * Area under the righting lever, m rad; what lies under zero is taken off. Where she floods before
 * `fromDeg` there is no such area: 0.
 */
export function areaAnswer(
  asked: Asked,
  fromDeg: number,
  to: number | 'maximum',
  stops: OpeningState | null,
): Answer {
  const levers = leversOf(asked);
  const fromRad = radiansFromDegrees(fromDeg);
  const stop = stopRad(asked, stops);
  let wantedRad = to === 'maximum' ? levers.mostHeelRad : radiansFromDegrees(to);
  if (stop !== null && stop <= fromRad) return known(0, { note: 'floods-before' });
  if (stop !== null) wantedRad = Math.min(wantedRad, stop);
  if (wantedRad > levers.mostHeelRad + SLACK_RAD) return tooShort(asked, wantedRad);
  if (to !== 'maximum') return known(levers.areaMRad(fromRad, wantedRad));
  const top = greatest(levers.leverM, fromRad, wantedRad);
  return known(levers.areaMRad(fromRad, top.heelRad));
}

/** The greatest lever from one heel on, m: 0 where she floods before it. */
export function leverAnswer(
  asked: Asked,
  fromDeg: number,
  toDeg: number,
  stops: OpeningState | null,
): Answer {
  const levers = leversOf(asked);
  const fromRad = radiansFromDegrees(fromDeg);
  const stop = stopRad(asked, stops) ?? Number.POSITIVE_INFINITY;
  if (stop < fromRad) return known(0, { note: 'floods-before' });
  const wantedRad = Math.min(radiansFromDegrees(toDeg), stop);
  if (fromRad > levers.mostHeelRad + SLACK_RAD) return tooShort(asked, fromRad);
  const toRad = Math.min(wantedRad, levers.mostHeelRad);
  return known(greatest(levers.leverM, Math.min(fromRad, toRad), toRad).leverM, {
    atLeast: wantedRad > toRad + SLACK_RAD,
  });
}

/** Heel of the greatest lever, degrees. */
export function maximumAnswer(asked: Asked, stops: OpeningState | null): Answer {
  const levers = leversOf(asked);
  const stop = stopRad(asked, stops) ?? Number.POSITIVE_INFINITY;
  const toRad = Math.min(levers.mostHeelRad, stop);
  const { heelRad } = greatest(levers.leverM, 0, toRad);
  const atEnd = heelRad > toRad - SLACK_RAD && stop > toRad && toRad < Math.PI / 2 - SLACK_RAD;
  return known(degreesFromRadians(heelRad), { atLeast: atEnd });
}

/** Heel up to which the lever stays positive, degrees; 0 where it never is. */
export function rangeAnswer(asked: Asked, stops: OpeningState | null): Answer {
  const levers = leversOf(asked);
  const rise = firstRise(levers.leverM, 0, levers.mostHeelRad);
  if (rise === null) return known(0);
  const stop = stopRad(asked, stops) ?? Number.POSITIVE_INFINITY;
  const end = firstFall(levers.leverM, rise, levers.mostHeelRad);
  if (end === null && stop > levers.mostHeelRad) {
    return known(degreesFromRadians(levers.mostHeelRad), {
      note: 'positive-to-the-end',
      atLeast: true,
    });
  }
  return known(degreesFromRadians(Math.min(end ?? levers.mostHeelRad, stop)));
}

/** Heel at which she rests by herself, degrees; 0 where she lists to the other side. */
export function listAnswer(asked: Asked): Answer {
  const levers = leversOf(asked);
  const rest = firstRise(levers.leverM, 0, levers.mostHeelRad);
  return rest === null ? known(90, { note: 'no-rest' }) : known(degreesFromRadians(rest));
}

/** A heel that may not come: 90 degrees, and said so, where it does not. */
export function heelReached(heelRad: number | null): Answer {
  return heelRad === null
    ? known(90, { note: 'none-within-reach' })
    : known(degreesFromRadians(heelRad));
}

export function tooShort(asked: Asked, wantedRad: number): Answer {
  const reached = degreesFromRadians(leversOf(asked).mostHeelRad);
  return unknown(
    'levers-too-short',
    `to ${reached} degrees, wanted to ${degreesFromRadians(wantedRad)}`,
  );
}
