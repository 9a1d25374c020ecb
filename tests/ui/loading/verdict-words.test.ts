import { describe, expect, it } from 'vitest';
import { answerOf } from '#core/limits/judged-picture.ts';
import { judgeCondition } from '#core/stability/judge-condition.ts';
import { IMO_FISHING } from '#core/stability/rules/imo.ts';
import { SPAIN_FISHING } from '#core/stability/rules/spain-fishing.ts';
import {
  answerWords,
  inHandWords,
  mostWords,
  notJudgedWords,
  verdictWords,
} from '../../../ui/loading/verdict-words.ts';
import { type Made, madeEvidence } from '../../support/made-evidence.ts';

const sets = (made: Made) => judgeCondition([SPAIN_FISHING], madeEvidence(made));
const words = (made: Made) => answerWords(answerOf(sets(made), []), true);

describe('verdicts in words', () => {
  it('name the tightest clause and what is in hand, never more than was judged', () => {
    expect(words({ gmM: 0.36 })).toBe(
      'Every clause that is judged is met with it. Tightest: Metacentric height upright, liquids counted (2(b)), +0.010\u00a0m in hand.',
    );
    expect(words({ gmM: 0.3 })).toBe(
      'No: Metacentric height upright, liquids counted (2(b)) is not met with it.',
    );
    expect(words({ gmM: 0.36, kgUncertaintyM: 0.01 })).toContain(
      'is met with it by less than its uncertainty, 84 in 100 that it holds. That counts as not met.',
    );
    const memory = answerOf(judgeCondition([IMO_FISHING], madeEvidence()), []);
    expect(answerWords(memory, false)).toBe(
      'No clause could be judged as she is. 6 are not judged.',
    );
  });

  it('show a margin with its ±, and why a clause is not judged', () => {
    const gm = sets({ gmM: 0.45, kgUncertaintyM: 0.01 })[0]!.clauses.find(
      (one) => one.clause === 'gm',
    )!;
    expect(inHandWords(gm.figures[0]!)).toBe('+0.100 ± 0.020\u00a0m');
    const [imo] = judgeCondition([IMO_FISHING], madeEvidence());
    expect(notJudgedWords(imo!.clauses[0]!)).toContain('not verified, not for submission');
    expect(verdictWords('met-within-uncertainty')).toBe('met, margin within uncertainty');
  });

  it('never round a most up', () => {
    const most = { massT: 1.2399, withinT: 0.001, beyondT: null, governs: null };
    expect(mostWords(most, 'put there')).toBe(
      'At most 1.23 t put there. More would sink her or leave her no rest.',
    );
    expect(mostWords({ ...most, massT: 0 }, 'put there')).toBe(
      'Nothing may be put there. She cannot float so.',
    );
    expect(mostWords({ ...most, massT: 20, beyondT: 20 }, 'put there')).toContain(
      'No limit was found up to 20.00 t',
    );
    expect(mostWords(null, 'put there')).toContain('no most can be said');
  });
});
