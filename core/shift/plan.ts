import { degreesFromRadians } from '../quantity/angle.ts';
import { checkPositive } from '../quantity/check.ts';
import { FIRST_SHIFT_SHARE, LEAST_GM_M, type SafetyFact } from './safety.ts';

/** Limits of heel to each side: 2008 IS Code 8.2.2.8 (from memory), and class rules. */
export const LEAST_HEEL_DEG = 1;
export const MOST_HEEL_DEG = 4;
/** A standard test has eight movements: 2008 IS Code 8.4.1.2. */
export const STANDARD_MOVEMENTS = 8;

export interface PlannedState {
  readonly heelingMomentTM: number;
  /** From upright, by the guessed GM, without any list. */
  readonly predictedHeelDeg: number;
}

/** The planned states with the heel a guess of GM gives them, and what is to be thought over. */
export function checkPlan(
  momentsTM: readonly number[],
  displacementT: number,
  gmGuessM: number,
): { states: PlannedState[]; advice: SafetyFact[] } {
  const stiffness = checkPositive(displacementT, 'displacement') * checkPositive(gmGuessM, 'GM');
  const states = momentsTM.map((heelingMomentTM) => ({
    heelingMomentTM,
    predictedHeelDeg: degreesFromRadians(Math.atan(heelingMomentTM / stiffness)),
  }));
  const advice: SafetyFact[] = [];
  const greatest = Math.max(0, ...momentsTM.map(Math.abs));
  const first = momentsTM.find((moment) => moment !== 0) ?? 0;
  if (Math.abs(first) > FIRST_SHIFT_SHARE * greatest) {
    const share = Math.abs(first) / greatest;
    advice.push({ code: 'first-shift-large', stop: false, share, mostShare: FIRST_SHIFT_SHARE });
  }
  for (const [side, heelDeg] of [
    ['starboard', Math.max(0, ...states.map((state) => state.predictedHeelDeg))],
    ['port', Math.max(0, ...states.map((state) => -state.predictedHeelDeg))],
  ] as const) {
    const heels = { stop: false, side, heelDeg } as const;
    if (heelDeg < LEAST_HEEL_DEG)
      advice.push({ code: 'plan-heels-little', ...heels, limitDeg: LEAST_HEEL_DEG });
    if (heelDeg > MOST_HEEL_DEG)
      advice.push({ code: 'plan-heels-far', ...heels, limitDeg: MOST_HEEL_DEG });
  }
  const planned = momentsTM.length;
  if (planned < STANDARD_MOVEMENTS)
    advice.push({ code: 'movements-few', stop: false, planned, standard: STANDARD_MOVEMENTS });
  if (gmGuessM < LEAST_GM_M)
    advice.push({ code: 'gm-guess-small', stop: false, gmGuessM, leastGmM: LEAST_GM_M });
  return { states, advice };
}
