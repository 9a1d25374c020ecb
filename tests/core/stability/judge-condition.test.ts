import { describe, expect, it } from 'vitest';
import { countsAsMet, judgeCondition } from '#core/stability/judge-condition.ts';
import { IMO_FISHING } from '#core/stability/rules/imo.ts';
import { SPAIN_FISHING } from '#core/stability/rules/spain-fishing.ts';
import { type Made, madeEvidence } from '../../support/made-evidence.ts';

const judged = (made: Made) => judgeCondition([SPAIN_FISHING, IMO_FISHING], madeEvidence(made));

describe('rule sets on a condition', () => {
  it('are judged each by each, in order', () => {
    const [spain, imo] = judged({});
    expect(spain).toMatchObject({ ruleSet: 'es-rd-543-2007-fishing', outside: [] });
    expect(spain!.clauses.map((one) => one.clause)).toEqual(
      SPAIN_FISHING.clauses.map((one) => one.id),
    );
    expect(
      imo!.clauses.every((one) => one.verdict === 'not-judged' && one.computed === 'met'),
    ).toBe(true);
  });

  it('refuse a vessel they are not for, and say why', () => {
    const [spain] = judged({ vessel: { lengthsM: { regulation: 9 } } });
    expect(spain!.outside).toEqual([
      {
        code: 'outside',
        field: 'length',
        wanted: 'from 12 m under 24 m length regulation',
        found: '9 m',
      },
    ]);
    for (const clause of spain!.clauses)
      expect(clause).toMatchObject({
        verdict: 'not-judged',
        computed: null,
        notJudged: { code: 'outside-scope' },
      });
  });
});

describe('what counts as met', () => {
  const gm = (made: Made) => judged(made)[0]!.clauses.find((one) => one.clause === 'gm')!;
  it('is a margin beyond its uncertainty, or one the architect signs for', () => {
    const near = gm({ gmM: 0.36, kgUncertaintyM: 0.01 });
    const signed = { ruleSet: 'es-rd-543-2007-fishing', clause: 'gm', by: 'A. Sandbank' };
    expect(countsAsMet(gm({}), [])).toBe(true);
    expect(countsAsMet(near, [])).toBe(false);
    expect(countsAsMet(near, [{ ...signed, clause: 'area-0-30' }])).toBe(false);
    expect(countsAsMet(near, [signed])).toBe(true);
  });

  it('is never a wrong side, signed or not, and nothing where nothing was judged', () => {
    const signed = { ruleSet: 'es-rd-543-2007-fishing', clause: 'gm', by: 'A. Sandbank' };
    expect(countsAsMet(gm({ gmM: 0.3 }), [signed])).toBe(false);
    expect(countsAsMet(judged({})[1]!.clauses[0]!, [])).toBeNull();
    const pull = judged({})[0]!.clauses.find((one) => one.clause === 'gear-pull')!;
    expect(countsAsMet(pull, [])).toBeNull();
  });
});
