import { type Answer, known, unknown } from './answer.ts';
import type { Asked } from './asked.ts';
import {
  areaAnswer,
  heelReached,
  leverAnswer,
  listAnswer,
  maximumAnswer,
  rangeAnswer,
} from './lever-quantities.ts';
import { momentAnswers } from './moment-quantities.ts';
import type { Quantity } from './rule-quantity.ts';
import { windAndRollAnswer, windHeelAnswer } from './wind-and-roll.ts';

/**
 * What a quantity is in this condition, in m, m rad, degrees or times; one answer for each moment of
 * the kind where it asks for a moment, else one.
 */
export function quantityAnswers(asked: Asked, of: Quantity): readonly Answer[] {
  if ('moment' in of) return momentAnswers(asked, of);
  return [plainAnswer(asked, of)];
}

function plainAnswer(asked: Asked, of: Exclude<Quantity, { moment: unknown }>): Answer {
  const { evidence, side } = asked;
  switch (of.kind) {
    case 'area':
      return areaAnswer(asked, of.fromDeg, of.to, of.stops);
    case 'lever':
      return leverAnswer(asked, of.fromDeg, of.toDeg, of.stops);
    case 'heel-of-maximum':
      return maximumAnswer(asked, of.stops);
    case 'range':
      return rangeAnswer(asked, of.stops);
    case 'gm-fluid':
      return known(evidence.gmFluidM(asked.method));
    case 'downflooding':
      return heelReached(evidence.downfloodingRad(side, of.opened));
    case 'deck-edge':
      return heelReached(evidence.deckEdgeRad(side));
    case 'freeboard':
      return known(evidence.leastFreeboardM);
    case 'trim':
      return known(Math.abs(evidence.trimM));
    case 'list':
      return listAnswer(asked);
    case 'wind-heel':
      return windHeelAnswer(asked, of);
    case 'wind-and-roll':
      return windAndRollAnswer(asked, of);
    case 'not-computed':
      return unknown('not-computed', of.why);
  }
}
