/**
 * What bears on safety, as facts with their units; the words for people are made where they are
 * shown. `stop`: a reason to stop (weight back, people off); else an advice.
 */
export type SafetyFact =
  | {
      /** Heel from the first state, to either side, as read and as predicted before the move. */
      readonly code: 'heeled-beyond-prediction';
      readonly stop: true;
      readonly seenDeg: number;
      readonly predictedDeg: number;
    }
  | { readonly code: 'zero-not-returned'; readonly stop: true; readonly leftDeg: number }
  | {
      readonly code: 'gm-too-small' | 'gm-not-shown-enough';
      readonly stop: boolean;
      readonly gmM: number;
      /** Half its 95 % interval. */
      readonly halfWidth95M: number;
      readonly leastGmM: number;
    }
  | {
      /** Shares of the greatest planned moment, 0 to 1. */
      readonly code: 'first-shift-large';
      readonly stop: false;
      readonly share: number;
      readonly mostShare: number;
    }
  | {
      /** Greatest heel of the plan to this side, by the guess of GM, and its usual limit. */
      readonly code: 'plan-heels-little' | 'plan-heels-far';
      readonly stop: false;
      readonly side: 'port' | 'starboard';
      readonly heelDeg: number;
      readonly limitDeg: number;
    }
  | {
      readonly code: 'movements-few';
      readonly stop: false;
      readonly planned: number;
      readonly standard: number;
    }
  | {
      readonly code: 'gm-guess-small';
      readonly stop: false;
      readonly gmGuessM: number;
      readonly leastGmM: number;
    }
  | {
      /** GM so far over KG that its error is a large one of KG. */
      readonly code: 'gm-over-three-kg';
      readonly stop: false;
      readonly gmM: number;
      readonly kgM: number;
    }
  /** The plan cannot be reckoned with; `found` says what is wrong with it. */
  | { readonly code: 'plan-not-sound'; readonly stop: false; readonly found: string };

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
}): SafetyFact[] {
  const predictedDeg = Math.abs(heel.predictedDeg - heel.firstDeg);
  const seenDeg = Math.abs(heel.seenDeg - heel.firstDeg);
  const scatter = Math.max(LEAST_EXCESS_DEG, 4 * heel.standardErrorDeg);
  if (seenDeg <= STOP_AT_TIMES_PREDICTED * predictedDeg + scatter) return [];
  return predictedDeg < LEAST_EXCESS_DEG
    ? [{ code: 'zero-not-returned', stop: true, leftDeg: seenDeg }]
    : [{ code: 'heeled-beyond-prediction', stop: true, seenDeg, predictedDeg }];
}

/** Is GM too small to go on? `halfWidth95M` is half its 95 % interval. */
export function safetyOfGm(gmM: number, halfWidth95M: number): SafetyFact[] {
  const found = { gmM, halfWidth95M, leastGmM: LEAST_GM_M };
  if (gmM < LEAST_GM_M) return [{ code: 'gm-too-small', stop: true, ...found }];
  if (gmM - halfWidth95M < LEAST_GM_M)
    return [{ code: 'gm-not-shown-enough', stop: false, ...found }];
  return [];
}
