import { Fault } from '../fault/fault.ts';
import type { EvidenceQuestion } from '../stability/condition-evidence.ts';
import { type LoadChange, withChange } from './change.ts';
import { type Answer, type Judging, judgedPicture } from './judged-picture.ts';

/** The most of a change that may be made with every judged clause counting as met. */
export interface MostHere {
  /** t; 0 where nothing more may be. The next step of `withinT` up was seen not to be met. */
  readonly massT: number;
  readonly withinT: number;
  /** It was not looked for beyond this: no limit was found below it. */
  readonly beyondT: number | null;
  /** The clause that is not met with more; null where she cannot float with it. */
  readonly governs: Answer['governs'];
}

/** Not looked for over this share of what she weighs: our setting. */
const MOST_SHARE = 0.5;
const HALVINGS = 9;

/**
 * The most that may be put aboard (or taken off, or moved) at the places of `change`, found by halving;
 * its own mass does not matter. A gap below, where less is not met and more is again, is not searched
 * for beyond the even shares looked at first. Null where nothing can be judged.
 */
export function mostHere(
  question: EvidenceQuestion,
  judging: Judging,
  change: LoadChange,
): MostHere | null {
  const whole = MOST_SHARE * question.loaded.moments.massT;
  const answerAt = (massT: number): Answer | null => {
    try {
      return judgedPicture(withChange(question, { ...change, massT }), judging).answer;
    } catch (error) {
      if (error instanceof Fault && (error.code === 'hull-sinks' || error.code === 'hull-no-rest'))
        return null;
      throw error;
    }
  };
  const start = answerAt(0);
  if (start === null || start.outcome === 'nothing-judged') return null;
  if (start.outcome === 'not-met')
    return { massT: 0, withinT: 0, beyondT: null, governs: start.governs };
  let [low, high] = [0, whole];
  let above: Answer | null | undefined;
  for (const share of [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1]) {
    const answer = answerAt(share * whole);
    if (answer?.outcome === 'met') {
      low = share * whole;
      continue;
    }
    [high, above] = [share * whole, answer];
    break;
  }
  if (above === undefined) return { massT: low, withinT: 0, beyondT: low, governs: null };
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    const answer = answerAt(middle);
    if (answer?.outcome === 'met') low = middle;
    else [high, above] = [middle, answer];
  }
  return { massT: low, withinT: high - low, beyondT: null, governs: above?.governs ?? null };
}
