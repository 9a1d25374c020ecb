import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import type { ConditionEvidence } from '#core/stability/evidence.ts';
import { judgeClause } from '#core/stability/judge-clause.ts';
import { movedOf } from '#core/stability/margin.ts';
import type { Clause, RuleSet } from '#core/stability/rule-set.ts';
import { SPAIN_FISHING } from '#core/stability/rules/spain-fishing.ts';
import { US_FISHING, US_WORKING } from '#core/stability/rules/united-states.ts';
import { leversThrough } from '#core/stability/sampled-levers.ts';
import {
  leversAt,
  type Made,
  madeEvidence,
  raisedEvidence,
  raisedLevers,
} from '../../support/made-evidence.ts';

const clauseOf = (set: RuleSet, id: string): Clause => set.clauses.find((one) => one.id === id)!;
const GM = clauseOf(SPAIN_FISHING, 'gm');
const judge = (evidence: ConditionEvidence, clause = GM, set = SPAIN_FISHING) =>
  judgeClause(set, clause, evidence, movedOf(evidence));

describe('the verdict of a clause', () => {
  it('carries the clause, the figures, and the words for them', () => {
    expect(judge(madeEvidence({ gmM: 0.4 }))).toMatchObject({
      ruleSet: 'es-rd-543-2007-fishing',
      clause: 'gm',
      printed: '2(b)',
      provenance: 'seen',
      verdict: 'met',
      computed: 'met',
      notJudged: null,
      figures: [
        { quantity: 'gm-fluid', value: 0.4, limit: 0.35, margin: expect.closeTo(0.05, 12) },
      ],
    });
  });

  it('is that of the worse side', () => {
    const good = madeEvidence();
    const list = {
      ...good,
      levers: (side: string) =>
        raisedLevers(good.levers('port', 'exact'), side === 'port' ? 0.4 : 0),
    };
    const verdict = judge(list, clauseOf(SPAIN_FISHING, 'area-0-30'));
    expect(verdict).toMatchObject({ verdict: 'met', side: 'port' });
    const more = {
      ...good,
      levers: (side: string) =>
        raisedLevers(good.levers('port', 'exact'), side === 'starboard' ? 0.6 : 0),
    };
    expect(judge(more, clauseOf(SPAIN_FISHING, 'area-0-30'))).toMatchObject({
      verdict: 'not-met',
      side: 'starboard',
    });
  });

  it("is that of the more severe way to count liquids, the set's own or the exact one", () => {
    const gm = (own: number, exact: number): ConditionEvidence => ({
      ...madeEvidence(),
      gmFluidM: (method) => (method === 'exact' ? exact : method === 'rd-543-2007' ? own : 9),
    });
    expect(judge(gm(0.3, 0.5))).toMatchObject({ verdict: 'not-met', freeSurface: 'rd-543-2007' });
    expect(judge(gm(0.5, 0.3))).toMatchObject({ verdict: 'not-met', freeSurface: 'exact' });
    expect(judge(gm(0.5, 0.4)).figures[0]!.value).toBe(0.4);
  });

  it('within its uncertainty is said so, with the chance', () => {
    const verdict = judge(madeEvidence({ gmM: 0.36, kgUncertaintyM: 0.01 }));
    expect(verdict.verdict).toBe('met-within-uncertainty');
    expect(verdict.figures[0]!.chance).toBeCloseTo(0.841, 3);
  });

  it('from memory is computed, not judged', () => {
    const memory: Clause = { ...GM, provenance: 'from-memory' };
    expect(judge(madeEvidence({ gmM: 0.2 }), memory)).toMatchObject({
      verdict: 'not-judged',
      notJudged: { code: 'not-verified' },
      computed: 'not-met',
      figures: [{ value: 0.2 }],
    });
    const looked = { by: 'A. Sandbank', source: 'the decree', edition: '2007', page: '12' };
    expect(judge(madeEvidence({ gmM: 0.2 }), { ...memory, provenance: looked }).verdict).toBe(
      'not-met',
    );
  });

  it('does not hang on a way from memory, and says when it alone would do', () => {
    const early = leversAt({ 0: 0, 10: 0.4, 18: 0.5, 30: 0.45, 40: 0.4, 60: 0.3, 90: 0 });
    const evidence = madeEvidence({ vessel: { services: ['workboat'] }, levers: early });
    expect(judge(evidence, clauseOf(US_WORKING, 'heel-of-maximum'), US_WORKING)).toMatchObject({
      verdict: 'not-met',
      computed: 'met',
      figures: [{ quantity: 'heel-of-maximum', limit: 25 }],
    });
  });

  it('of several requirements is the worst, of several ways the best, and unknown where it hangs on the unknown', () => {
    const at = (least: number) =>
      ({ ...GM.anyOf[0]!.allOf[0]!, limit: { kind: 'fixed', value: least, unit: 'm' } }) as const;
    const none = {
      quantity: { kind: 'not-computed', why: 'x' },
      bound: 'at-least',
      limit: { kind: 'fixed', value: 1, unit: 'times' },
    } as const;
    const of = (...anyOf: Clause['anyOf'][number]['allOf'][]) =>
      judge(madeEvidence({ gmM: 0.4 }), { ...GM, anyOf: anyOf.map((allOf) => ({ allOf })) })
        .verdict;
    expect(of([at(0.3), at(0.5)])).toBe('not-met');
    expect(of([at(0.5)], [at(0.3)])).toBe('met');
    expect(of([at(0.3), none])).toBe('not-judged');
    expect(of([at(0.5), none])).toBe('not-met');
    expect(of([at(0.5)], [none])).toBe('not-judged');
    expect(of([at(0.3)], [none])).toBe('met');
  });

  it('never passes for levers that end too soon', () => {
    const short: Made = {
      levers: leversAt({ 0: 0, 10: 0.1, 20: 0.15, 33: 0.18 }),
      downfloodingRad: () => null,
    };
    const lever = clauseOf(SPAIN_FISHING, 'lever-30');
    expect(judge(madeEvidence(short), lever)).toMatchObject({
      verdict: 'not-judged',
      notJudged: { code: 'levers-too-short' },
    });
    const enough: Made = { ...short, levers: leversAt({ 0: 0, 10: 0.1, 20: 0.15, 33: 0.21 }) };
    expect(judge(madeEvidence(enough), lever).verdict).toBe('met');
  });
});

const anyCurve = fc
  .record({
    gm: fc.double({ min: -0.3, max: 1.5, noNaN: true }),
    form: fc.double({ min: -1, max: 1.5, noNaN: true }),
    fall: fc.double({ min: 0, max: 1.2, noNaN: true }),
    list: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
    floodsDeg: fc.double({ min: 10, max: 89, noNaN: true }),
  })
  .map(({ gm, form, fall, list, floodsDeg }): Made => {
    const heels = Array.from({ length: 46 }, (_, k) => radiansFromDegrees(2 * k));
    const lever = (heel: number) =>
      (gm + form * Math.sin(heel) ** 2) * Math.sin(heel) -
      fall * Math.sin(heel) ** 5 -
      list * Math.cos(heel);
    return {
      gmM: gm,
      levers: leversThrough(heels, heels.map(lever)),
      downfloodingRad: () => radiansFromDegrees(floodsDeg),
    };
  });

const RIGHTING = [
  'area-0-30',
  'area-0-40',
  'area-30-40',
  'lever-30',
  'heel-of-maximum',
  'gm',
  'range',
  'area-to-maximum',
];
const RANK = ['not-met', 'met-within-uncertainty', 'met'];

describe('moving KG up', () => {
  it('never turns a requirement on the righting lever from not met into met', () => {
    fc.assert(
      fc.property(anyCurve, fc.double({ min: 1e-4, max: 0.5, noNaN: true }), (made, byM) => {
        for (const set of [SPAIN_FISHING, US_FISHING]) {
          for (const clause of set.clauses.filter((one) => RIGHTING.includes(one.id))) {
            const hulls = clause.hulls === undefined ? {} : { vessel: { hulls: clause.hulls } };
            const low = judge(madeEvidence({ ...made, ...hulls }), clause, set);
            const high = judge(raisedEvidence({ ...made, ...hulls }, byM), clause, set);
            expect(RANK.indexOf(high.verdict), clause.id).toBeLessThanOrEqual(
              RANK.indexOf(low.verdict),
            );
          }
        }
      }),
      { numRuns: 150 },
    );
  });

  it('agrees with the side of the limit, whatever the uncertainty', () => {
    fc.assert(
      fc.property(
        anyCurve,
        fc.double({ min: 0.001, max: 0.3, noNaN: true }),
        (made, kgUncertaintyM) => {
          for (const clause of SPAIN_FISHING.clauses.filter((one) => RIGHTING.includes(one.id))) {
            const sure = judge(madeEvidence(made), clause).verdict;
            const unsure = judge(madeEvidence({ ...made, kgUncertaintyM }), clause).verdict;
            if (sure === 'not-met') expect(unsure).toBe('not-met');
            if (sure === 'met') expect(unsure).toMatch(/^met/);
          }
        },
      ),
      { numRuns: 100 },
    );
  });
});
