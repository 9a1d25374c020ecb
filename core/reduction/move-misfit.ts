import { studentTBeyond } from '../numerics/student-t.ts';
import type { LineFit } from './line.ts';

/** A shift of one weight: how far it was carried across, as the vessel answered. */
export interface MoveMisfit {
  /** Place of the state it led to. */
  readonly state: number;
  readonly weight: string;
  /** As written, starboard positive. */
  readonly distance: number;
  /** The distance at which its stated mass makes the heel that was seen. */
  readonly actsAs: number;
  /** Of the difference, from the scatter of the states; null where nothing is left over. */
  readonly standardError: number | null;
  /** Of so much by chance in one of all moves; null likewise. */
  readonly probability: number | null;
  /** Change of tangent the written distance makes on the line, and the change that was seen. */
  readonly writtenTangent: number;
  readonly seenTangent: number;
}

export interface OneWeightMove {
  readonly state: number;
  readonly weight: string;
  readonly mass: number;
  readonly distance: number;
}

/**
 * Each shift of a single weight against the line: a wrong mark, weight, tape or side shows as a
 * distance other than the one written. `momentsFitted` and `fit` are those of one answer, so rise
 * and bend are in them. Two states' errors enter, so the standard error is root two of a state's.
 */
export function moveMisfits(
  moves: readonly OneWeightMove[],
  momentsFitted: readonly number[],
  fit: LineFit,
): MoveMisfit[] {
  const { stateTangents, stateResiduals, statesDof, slope } = fit;
  const rest = stateResiduals.reduce((sum, one) => sum + one * one, 0);
  const deviation = Math.sqrt(rest / statesDof);
  return moves.map(({ state, weight, mass, distance }) => {
    const seenTangent = stateTangents[state]! - stateTangents[state - 1]!;
    const seen = seenTangent / slope.value;
    const written = momentsFitted[state]! - momentsFitted[state - 1]!;
    const off = (seen - written) / mass;
    const standardError = (Math.SQRT2 * deviation) / slope.value / mass;
    const known = standardError > 1e-9 * Math.abs(distance);
    return {
      state,
      weight,
      distance,
      actsAs: distance + off,
      standardError: known ? standardError : null,
      probability: known
        ? Math.min(1, moves.length * studentTBeyond(off / standardError, statesDof))
        : null,
      writtenTangent: written * slope.value,
      seenTangent,
    };
  });
}
