import { Fault } from '#core/fault/fault.ts';
import type { Move } from '#core/record/line.ts';
import { predictHeelOfSession } from '#core/session/prediction.ts';
import type { SessionState } from '#core/session/session.ts';
import { momentOfPlaces } from '#core/shift/moment.ts';
import type { HeelPrediction } from '#core/shift/prediction.ts';

/** What a shift line says before the weights move. */
export interface Prediction {
  readonly heelingMomentTM: number;
  readonly predictedHeelDeg: number | null;
  readonly predictedStandardErrorDeg: number | null;
  /** Null: by the guess of GM, or nothing is predicted. */
  readonly predictedDegreesOfFreedom: number | null;
}

/** The heeling moment after these moves, from state 0 on, and the heel expected of it. */
export function prediction(session: SessionState, moves: readonly Move[]): Prediction {
  const places = new Map(Object.entries(session.weightsAt));
  for (const move of moves) places.set(move.weight, move.to);
  const { heelingMomentTM } = momentOfPlaces(session.test?.weights ?? [], places);
  const predicted = heelPredicted(session, heelingMomentTM);
  return {
    heelingMomentTM,
    predictedHeelDeg: predicted?.heelDeg ?? null,
    predictedStandardErrorDeg: predicted?.standardErrorDeg ?? null,
    predictedDegreesOfFreedom: predicted?.from === 'line' ? predicted.degreesOfFreedom : null,
  };
}

/** Readings of which no line can be made do not stop the day: then nothing is predicted. */
function heelPredicted(session: SessionState, heelingMomentTM: number): HeelPrediction | null {
  try {
    return predictHeelOfSession(session, heelingMomentTM);
  } catch (error) {
    if (error instanceof Fault) return null;
    throw error;
  }
}
