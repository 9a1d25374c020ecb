import { comparePrediction } from '../shift/prediction.ts';
import type { SessionState } from './session.ts';
import type { SessionResult } from './session-result.ts';

/** Heel predicted before each shift beside the one read after it. */
export function resultPredictions(session: SessionState): SessionResult['predictions'] {
  return session.states.flatMap((state) => {
    const { predictedHeelDeg, predictedStandardErrorDeg, predictedDegreesOfFreedom } = state;
    const { reading } = state;
    if (predictedHeelDeg === null || reading === null) return [];
    if (predictedStandardErrorDeg === null || !(predictedStandardErrorDeg > 0)) return [];
    const compared = comparePrediction(
      {
        heelDeg: predictedHeelDeg,
        standardErrorDeg: predictedStandardErrorDeg,
        degreesOfFreedom: predictedDegreesOfFreedom ?? Number.POSITIVE_INFINITY,
      },
      reading.joined.heelDeg,
    );
    return [
      {
        state: state.state,
        predictedHeelDeg,
        predictedStandardErrorDeg,
        predictedDegreesOfFreedom,
        seenHeelDeg: reading.joined.heelDeg,
        differenceDeg: compared.differenceDeg,
        ratio: compared.ratio,
        words: compared.words,
      },
    ];
  });
}
