import type { SafetyFact } from '#core/shift/safety.ts';
import { figure, fixed } from './figure.ts';

const percent = (share: number) => `${fixed(100 * share, 0)} %`;
const degrees = (heelDeg: number) => `${fixed(heelDeg, 2)}°`;
const WEIGHT_BACK = 'Weight back, people off.';

function gmWords(gmM: number, halfWidth95M: number): string {
  const shown = figure(gmM, halfWidth95M, { mostDecimals: 3 });
  return shown.plusMinus === null
    ? `GM ${fixed(gmM, 2)} m`
    : `GM ${shown.value}\u2009±\u2009${shown.plusMinus} m`;
}

/** What bears on safety, in sentences; a stop ends with what to do. */
export function safetyWords(fact: SafetyFact): string {
  switch (fact.code) {
    case 'heeled-beyond-prediction':
      return `She heeled ${degrees(fact.seenDeg)}; ${degrees(fact.predictedDeg)} were predicted. ${WEIGHT_BACK}`;
    case 'zero-not-returned':
      return `The zero does not return: ${degrees(fact.leftDeg)} are left. ${WEIGHT_BACK}`;
    case 'gm-too-small':
      return `${gmWords(fact.gmM, fact.halfWidth95M)} is under ${fact.leastGmM} m. ${WEIGHT_BACK}`;
    case 'gm-not-shown-enough':
      return `${gmWords(fact.gmM, fact.halfWidth95M)} so far: not yet shown to be over ${fact.leastGmM} m.`;
    case 'first-shift-large':
      return `The first shift is ${percent(fact.share)} of the greatest moment; GM being a guess, begin with at most ${percent(fact.mostShare)}.`;
    case 'plan-heels-little':
      return `The plan heels her ${degrees(fact.heelDeg)} to ${fact.side}; at least ${fact.limitDeg}° is usual.`;
    case 'plan-heels-far':
      return `The plan heels her ${degrees(fact.heelDeg)} to ${fact.side}; at most ${fact.limitDeg}° is usual.`;
    case 'movements-few':
      return `${fact.planned} movements are planned; a standard test has ${fact.standard}.`;
    case 'gm-guess-small':
      return `The guessed GM of ${fixed(fact.gmGuessM, 2)} m is too small to incline her safely; at least ${fact.leastGmM} m.`;
    case 'gm-over-three-kg':
      return `GM ${fixed(fact.gmM, 2)} m is over three times KG ${fixed(fact.kgM, 2)} m: a small error of GM is a large one of KG. Let the authority judge whether calculated weights serve better (HSC Code 2.7.2).`;
    case 'plan-not-sound':
      return `The plan is not sound: ${fact.found}.`;
  }
}
