import { Fault } from '../fault/fault.ts';
import { checkAllFinite } from '../quantity/check.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';

/** The same instrument on the same plane, before and after half a turn about the vertical. */
export interface Reversal {
  readonly firstDeg: number;
  readonly turnedDeg: number;
}

export interface ReversalResult {
  /** What the instrument shows on a level plane, degrees. */
  readonly zeroDeg: Uncertain;
  /** Tilt of the plane along the instrument's axis in its first position, degrees. */
  readonly planeTiltDeg: Uncertain;
}

/**
 * Zero of an inclinometer by reversal. The first reading is tilt plus zero, the turned one zero
 * less tilt; half their sum is the zero, half their difference the tilt. An error of scale does
 * not enter at small tilt. Uncertainty by the scatter of the repeats (JCGM 100:2008, 4.2.3);
 * two repeats at least, or a stated standard uncertainty of one reading in degrees.
 * Faults: `input-too-few`, `input-not-finite`. Common practice of surveyors' levels, no source.
 */
export function zeroByReversal(
  repeats: readonly Reversal[],
  readingUncertaintyDeg: number | null = null,
): ReversalResult {
  checkAllFinite(
    repeats.flatMap(({ firstDeg, turnedDeg }) => [firstDeg, turnedDeg]),
    'reversal',
  );
  if (repeats.length < (readingUncertaintyDeg === null ? 2 : 1)) {
    throw new Fault('input-too-few', 'reversal', `${repeats.length} repeats`);
  }
  return {
    zeroDeg: meanOf(
      repeats.map(({ firstDeg, turnedDeg }) => (firstDeg + turnedDeg) / 2),
      readingUncertaintyDeg,
    ),
    planeTiltDeg: meanOf(
      repeats.map(({ firstDeg, turnedDeg }) => (firstDeg - turnedDeg) / 2),
      readingUncertaintyDeg,
    ),
  };
}

/** Half a sum of two readings has 1/sqrt(2) of the uncertainty of one. */
function meanOf(values: readonly number[], readingUncertaintyDeg: number | null): Uncertain {
  const count = values.length;
  const value = values.reduce((sum, one) => sum + one, 0) / count;
  if (readingUncertaintyDeg !== null) {
    return {
      value,
      standardUncertainty: readingUncertaintyDeg / Math.sqrt(2 * count),
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    };
  }
  const squares = values.reduce((sum, one) => sum + (one - value) ** 2, 0);
  return {
    value,
    standardUncertainty: Math.sqrt(squares / (count - 1) / count),
    degreesOfFreedom: count - 1,
  };
}
