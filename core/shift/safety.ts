/** A reason to stop (weight back, people off), or an advice. */
export interface SafetyWord {
  readonly stop: boolean;
  readonly words: string;
}

/** Heel from the first reading over the predicted one at which to stop. Our setting. */
export const STOP_AT_TIMES_PREDICTED = 1.5;
/** GM under which to stop. Our setting. */
export const LEAST_GM_M = 0.15;
/** Of the greatest planned moment, for the first shift, GM being a guess. Our setting. */
export const FIRST_SHIFT_SHARE = 0.25;
/** A heel less than this beyond its limit is scatter, not danger. Our setting. */
const LEAST_EXCESS_DEG = 0.1;

/**
 * Has she heeled half as much again as predicted? Counted from the heel of the first state; on a
 * return to it, whether she returned. Heels and their standard error in degrees.
 */
export function safetyOfHeel(heel: {
  readonly firstDeg: number;
  readonly predictedDeg: number;
  readonly seenDeg: number;
  readonly standardErrorDeg: number;
}): SafetyWord[] {
  const predicted = Math.abs(heel.predictedDeg - heel.firstDeg);
  const seen = Math.abs(heel.seenDeg - heel.firstDeg);
  const scatter = Math.max(LEAST_EXCESS_DEG, 4 * heel.standardErrorDeg);
  if (seen <= STOP_AT_TIMES_PREDICTED * predicted + scatter) return [];
  const what =
    predicted < LEAST_EXCESS_DEG
      ? `the zero does not return: ${seen.toFixed(2)} deg are left`
      : `she heeled ${seen.toFixed(2)} deg where ${predicted.toFixed(2)} deg were predicted`;
  return [{ stop: true, words: `STOP: ${what}. Weight back, people off` }];
}

/** Is GM too small to go on? `halfWidth95M` is half its 95 % interval. */
export function safetyOfGm(gmM: number, halfWidth95M: number): SafetyWord[] {
  if (gmM < LEAST_GM_M) {
    return [
      {
        stop: true,
        words: `STOP: GM ${gmM.toFixed(3)} m is under ${LEAST_GM_M} m. Weight back, people off`,
      },
    ];
  }
  if (gmM - halfWidth95M < LEAST_GM_M) {
    return [
      {
        stop: false,
        words: `GM is not yet shown to be over ${LEAST_GM_M} m`,
      },
    ];
  }
  return [];
}
