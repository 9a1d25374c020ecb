import { comparePrediction } from '../shift/prediction.ts';
import type { SessionState } from './session.ts';
import type { SessionResult } from './session-result.ts';

/**
 * Heel predicted before each shift beside the one read after it. The record holds no degrees of
 * freedom: those of a line through the states read before (two less than these), or none to
 * count while the guess stood.
 */
export function resultPredictions(session: SessionState): SessionResult['predictions'] {
  let readBefore = 0;
  return session.states.flatMap((state) => {
    const before = readBefore;
    if (state.reading !== null) readBefore += 1;
    const { predictedHeelDeg, predictedStandardErrorDeg, reading } = state;
    if (predictedHeelDeg === null || reading === null) return [];
    if (predictedStandardErrorDeg === null || !(predictedStandardErrorDeg > 0)) return [];
    const degreesOfFreedom = before >= 3 ? before - 2 : Number.POSITIVE_INFINITY;
    const compared = comparePrediction(
      { heelDeg: predictedHeelDeg, standardErrorDeg: predictedStandardErrorDeg, degreesOfFreedom },
      reading.joined.heelDeg,
    );
    return [
      {
        state: state.state,
        predictedHeelDeg,
        predictedStandardErrorDeg,
        seenHeelDeg: reading.joined.heelDeg,
        differenceDeg: compared.differenceDeg,
        ratio: compared.ratio,
        words: compared.words,
      },
    ];
  });
}
