import type { SafetyFact } from '../shift/safety.ts';
import { fixed, measured, significant } from './figure.ts';

const STOP = 'Stop: weight back, people off.';
const percent = (share: number) => `${fixed(100 * share, 0)} %`;
const degrees = (heelDeg: number) => `${fixed(heelDeg, 2)} deg`;

/** What bears on safety, as a sentence of a report or of the terminal. */
export function safetyWords(fact: SafetyFact): string {
  switch (fact.code) {
    case 'heeled-beyond-prediction':
      return `${STOP} She heeled ${degrees(fact.seenDeg)}; ${degrees(fact.predictedDeg)} were predicted.`;
    case 'zero-not-returned':
      return `${STOP} The zero does not return: ${degrees(fact.leftDeg)} are left.`;
    case 'gm-too-small':
      return `${STOP} GM ${measured(fact.gmM, fact.halfWidth95M, 'm')} is under ${fact.leastGmM} m.`;
    case 'gm-not-shown-enough':
      return `GM ${measured(fact.gmM, fact.halfWidth95M, 'm')} is not yet shown to be over ${fact.leastGmM} m.`;
    case 'first-shift-large':
      return `The first shift is ${percent(fact.share)} of the greatest moment; GM being a guess, begin with at most ${percent(fact.mostShare)}.`;
    case 'plan-heels-little':
      return `The plan heels her ${degrees(fact.heelDeg)} to ${fact.side}; at least ${fact.limitDeg} deg is usual.`;
    case 'plan-heels-far':
      return `The plan heels her ${degrees(fact.heelDeg)} to ${fact.side}; at most ${fact.limitDeg} deg is usual.`;
    case 'movements-few':
      return `Movements planned: ${fact.planned}; a standard test has ${fact.standard}.`;
    case 'gm-guess-small':
      return `A guessed GM of ${significant(fact.gmGuessM, 3)} m is too small to incline her safely; at least ${fact.leastGmM} m.`;
    case 'gm-over-three-kg':
      return `GM ${significant(fact.gmM, 3)} m is over three times KG ${significant(fact.kgM, 3)} m: a small error of GM is a large one of KG (HSC Code 2.7.2).`;
    case 'plan-not-sound':
      return `The plan is not sound: ${fact.found}.`;
  }
}
