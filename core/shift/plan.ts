import { degreesFromRadians } from '../quantity/angle.ts';
import { checkPositive } from '../quantity/check.ts';
import { FIRST_SHIFT_SHARE, LEAST_GM_M, type SafetyWord } from './safety.ts';

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
): { states: PlannedState[]; advice: SafetyWord[] } {
  const stiffness = checkPositive(displacementT, 'displacement') * checkPositive(gmGuessM, 'GM');
  const states = momentsTM.map((heelingMomentTM) => ({
    heelingMomentTM,
    predictedHeelDeg: degreesFromRadians(Math.atan(heelingMomentTM / stiffness)),
  }));
  const words: string[] = [];
  const greatest = Math.max(0, ...momentsTM.map(Math.abs));
  const first = momentsTM.find((moment) => moment !== 0) ?? 0;
  if (Math.abs(first) > FIRST_SHIFT_SHARE * greatest) {
    words.push(
      `the first shift is ${share(first, greatest)} of the greatest moment; GM being a guess, begin with at most ${share(FIRST_SHIFT_SHARE, 1)}`,
    );
  }
  for (const [side, heel] of [
    ['starboard', Math.max(0, ...states.map((state) => state.predictedHeelDeg))],
    ['port', -Math.min(0, ...states.map((state) => state.predictedHeelDeg))],
  ] as const) {
    if (heel < LEAST_HEEL_DEG)
      words.push(`the plan heels her ${heel.toFixed(2)} deg to ${side}; at least 1 deg is usual`);
    if (heel > MOST_HEEL_DEG)
      words.push(`the plan heels her ${heel.toFixed(2)} deg to ${side}; at most 4 deg is usual`);
  }
  if (momentsTM.length < STANDARD_MOVEMENTS) {
    words.push(`movements planned: ${momentsTM.length}; a standard test has ${STANDARD_MOVEMENTS}`);
  }
  if (gmGuessM < LEAST_GM_M) words.push(`a GM of ${gmGuessM} m is too small to incline her safely`);
  return { states, advice: words.map((one) => ({ stop: false, words: one })) };
}

function share(part: number, whole: number): string {
  return `${((100 * Math.abs(part)) / whole).toFixed(0)} %`;
}
