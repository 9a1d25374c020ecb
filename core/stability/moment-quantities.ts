import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import { type Answer, known, unknown } from './answer.ts';
import { type Asked, leversOf, stopRad } from './asked.ts';
import type { HeelingMoment, HeelingMomentKind } from './evidence.ts';
import { greatest } from './lever-features.ts';
import { tooShort } from './lever-quantities.ts';
import { type Against, netAreaMRad, restUnderRad, secondMeetingRad } from './moment-arm.ts';
import type { Quantity } from './rule-quantity.ts';

type OfMoment = Extract<Quantity, { moment: HeelingMomentKind }>;

/** Figures under a moment from outside; the worst of several of one kind, as the clause is asked. */
export function momentAnswers(asked: Asked, of: OfMoment): readonly Answer[] {
  const moments = asked.evidence.moments.filter((moment) => moment.kind === of.moment);
  if (moments.length === 0) return [unknown('moment-not-given', of.moment)];
  return moments.map((moment) => momentAnswer(asked, of, moment));
}

function momentAnswer(asked: Asked, of: OfMoment, moment: HeelingMoment): Answer {
  const { displacementT } = asked.evidence;
  const against: Against = {
    levers: leversOf(asked),
    armM: (heelRad) => moment.momentTM(heelRad) / displacementT,
  };
  switch (of.kind) {
    case 'heel-under-moment':
      if (moment.measured !== null)
        return known(degreesFromRadians(moment.measured.heelRad), { note: 'as-read' });
      return heelOfRest(restUnderRad(against));
    case 'freeboard-under-moment':
      return freeboardUnder(asked, moment, against);
    case 'gm-of-heel':
      return gmOfHeel(moment, displacementT);
    case 'residual-lever':
    case 'residual-area':
    case 'sudden-moment':
      return residual(asked, of, against);
  }
}

/** 90 degrees where she finds no rest: no clause that limits a heel allows that much. */
function heelOfRest(restRad: number | null): Answer {
  return restRad === null ? known(90, { note: 'no-rest' }) : known(degreesFromRadians(restRad));
}

function freeboardUnder(asked: Asked, moment: HeelingMoment, against: Against): Answer {
  if (moment.measured !== null) return known(moment.measured.leastFreeboardM, { note: 'as-read' });
  const restRad = restUnderRad(against);
  if (restRad === null)
    return unknown('freeboard-not-known', 'she finds no rest under this moment');
  const freeboardM = asked.evidence.freeboardAtM(asked.side, restRad);
  return freeboardM === null
    ? unknown('freeboard-not-known', `at ${degreesFromRadians(restRad)} degrees`)
    : known(freeboardM);
}

/** GM = moment / (displacement heel), heel in rad: the printed 57.3 is degrees in a radian. */
function gmOfHeel(moment: HeelingMoment, displacementT: number): Answer {
  if (moment.measured === null || !(moment.measured.heelRad > 0))
    return unknown('heel-not-read', moment.words);
  const { heelRad } = moment.measured;
  return known(moment.momentTM(heelRad) / (displacementT * heelRad), { note: 'as-read' });
}

function residual(
  asked: Asked,
  of: Extract<OfMoment, { toDeg: number }>,
  against: Against,
): Answer {
  const { levers, armM } = against;
  const restRad = restUnderRad(against);
  if (restRad === null) return known(0, { note: 'no-rest' });
  const stop = stopRad(asked, of.stops) ?? Number.POSITIVE_INFINITY;
  if (stop <= restRad) return known(0, { note: 'floods-before' });
  const again = secondMeetingRad(against, restRad) ?? Number.POSITIVE_INFINITY;
  const endRad = Math.min(radiansFromDegrees(of.toDeg), stop, again);
  if (endRad > levers.mostHeelRad + 1e-9) return tooShort(asked, endRad);
  if (endRad <= restRad) return known(0);
  if (of.kind === 'residual-lever') {
    const net = (heelRad: number) => levers.leverM(heelRad) - armM(heelRad);
    return known(greatest(net, restRad, endRad).leverM);
  }
  const left = netAreaMRad(against, restRad, endRad);
  if (of.kind === 'residual-area') return known(left);
  const short = -netAreaMRad(against, 0, restRad);
  return short > 0 ? known(left / short) : unknown('moment-not-given', 'the moment is none');
}
