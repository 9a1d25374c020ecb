import { describe, expect, it } from 'vitest';
import { US_FISHING, US_WORKING } from '#core/stability/rules/united-states.ts';
import { notMet, verdictsOf } from '../../../support/clause-verdicts.ts';
import { leversAt, type Made, madeEvidence } from '../../../support/made-evidence.ts';

const LONG = { lengthsM: { regulation: 25 } };
const WORK = { services: ['workboat'] as const };

describe('the sets of the United States', () => {
  it('ask of fishing vessels a positive lever to 60 degrees', () => {
    const to = (vanishingDeg: number): Made => ({
      vessel: LONG,
      levers: leversAt({
        0: 0,
        10: 0.2,
        20: 0.35,
        30: 0.42,
        40: 0.3,
        [vanishingDeg]: 0,
        80: -0.2,
        90: -0.3,
      }),
    });
    expect(verdictsOf(US_FISHING, madeEvidence(to(60.5)))['range']).toBe('met');
    expect(notMet(US_FISHING, madeEvidence(to(59.5)))).toEqual(['range']);
    expect(verdictsOf(US_FISHING, madeEvidence())['range']).toBe('not-judged');
  });

  it('ask of working vessels 0.15 m of GM', () => {
    expect(notMet(US_WORKING, madeEvidence({ vessel: WORK, gmM: 0.16 }))).toEqual([]);
    expect(notMet(US_WORKING, madeEvidence({ vessel: WORK, gmM: 0.14 }))).toEqual(['gm']);
  });

  it('print their areas in metre-degrees', () => {
    const [a, b, c] = US_WORKING.clauses.map((one) => one.anyOf[0]!.allOf[0]!.limit);
    expect([a, b, c]).toMatchObject([
      { value: 3.15, unit: 'm.deg' },
      { value: 5.15 },
      { value: 1.72 },
    ]);
  });

  it('do not let the half-remembered way of an early maximum judge', () => {
    const early = leversAt({ 0: 0, 10: 0.4, 18: 0.5, 30: 0.45, 40: 0.4, 60: 0.3, 90: 0 });
    const evidence = madeEvidence({ vessel: WORK, levers: early });
    expect(notMet(US_WORKING, evidence)).toEqual(['heel-of-maximum']);
  });
});
