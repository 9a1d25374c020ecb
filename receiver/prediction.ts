import type { Move } from '#core/record/line.ts';
import type { SessionState } from '#core/session/session.ts';
import { momentOfPlaces } from '#core/shift/moment.ts';

/** What a shift line says before the weights move. */
export interface Prediction {
  readonly heelingMomentTM: number;
  readonly predictedHeelDeg: number | null;
  readonly predictedStandardErrorDeg: number | null;
}

/** The heeling moment after these moves, from state 0 on, and the heel expected of it. */
export function prediction(session: SessionState, moves: readonly Move[]): Prediction {
  const places = new Map(Object.entries(session.weightsAt));
  for (const move of moves) places.set(move.weight, move.to);
  const { heelingMomentTM } = momentOfPlaces(session.test?.weights ?? [], places);
  return { heelingMomentTM, predictedHeelDeg: null, predictedStandardErrorDeg: null };
}
