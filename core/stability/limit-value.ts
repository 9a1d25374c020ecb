import { degreesFromRadians } from '../quantity/angle.ts';
import { type Answer, known, unknown } from './answer.ts';
import type { Asked } from './asked.ts';
import type { OpeningState } from './evidence.ts';
import { maximumAnswer } from './lever-quantities.ts';
import { fixedLimit, type Limit } from './rule-limit.ts';
import { simplifiedGmM } from './simplified-gm.ts';

/** A limit as it is for this condition: m, m rad, degrees or times. `stops`: those of its quantity. */
export function limitAnswer(asked: Asked, of: Limit, stops: OpeningState | null): Answer {
  switch (of.kind) {
    case 'fixed':
      return known(fixedLimit(of));
    case 'area-by-maximum': {
      const top = maximumAnswer(asked, stops);
      if (!top.known) return top;
      return known(of.baseMRad + of.perDegMRad * Math.max(of.underDeg - top.value, 0));
    }
    case 'deck-edge-share': {
      const edge = asked.evidence.deckEdgeRad(asked.side);
      if (edge === null) return known(90 * of.share, { note: 'none-within-reach' });
      return known(degreesFromRadians(edge) * of.share);
    }
    case 'assigned-freeboard': {
      const { assignedFreeboardM } = asked.evidence.vessel;
      return assignedFreeboardM === null
        ? unknown('particulars-not-given', 'assigned freeboard')
        : known(assignedFreeboardM);
    }
    case 'simplified-gm':
      return simplifiedGmM(asked.evidence, of);
    case 'least-of': {
      const answers = of.of.map((one) => limitAnswer(asked, one, stops));
      const missing = answers.find((one) => !one.known);
      if (missing !== undefined) return missing;
      return answers.reduce((least, one) =>
        one.known && least.known && one.value < least.value ? one : least,
      );
    }
  }
}
