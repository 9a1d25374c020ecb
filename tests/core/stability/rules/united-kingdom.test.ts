import { describe, expect, it } from 'vitest';
import type { HeelingMomentKind } from '#core/stability/evidence.ts';
import { UK_HEEL_TEST, UK_PEOPLE, UK_PEOPLE_GM } from '#core/stability/rules/united-kingdom.ts';
import { verdictsOf } from '../../../support/clause-verdicts.ts';
import { type Made, madeEvidence } from '../../../support/made-evidence.ts';

const read = (kind: HeelingMomentKind, heelDeg: number, leastFreeboardM: number): Made => ({
  kind: 'heel-test',
  moments: [
    {
      kind,
      words: 'as on the day',
      momentTM: () => 3,
      measured: { heelRad: (heelDeg * Math.PI) / 180, leastFreeboardM },
    },
  ],
});

const SMALL = { lengthsM: { overall: 14.9 } };
const heelTest = (heelDeg: number, freeboardM: number, vessel: Made['vessel'] = {}) =>
  verdictsOf(
    UK_HEEL_TEST,
    madeEvidence({
      ...read('gear-outboard', heelDeg, freeboardM),
      vessel: { ...SMALL, ...vessel },
    }),
  );

describe('the heel test', () => {
  it('passes at 7 degrees with 75 mm, or at 10 with the assigned freeboard', () => {
    expect(heelTest(6.9, 0.076)).toEqual({
      'gear-outboard-decked': 'met',
      'gear-outboard-open': 'not-asked',
    });
    expect(heelTest(6.9, 0.074)['gear-outboard-decked']).toBe('not-met');
    expect(heelTest(7.1, 0.2)['gear-outboard-decked']).toBe('not-met');
    expect(heelTest(9.9, 0.41)['gear-outboard-decked']).toBe('met');
    expect(heelTest(9.9, 0.39)['gear-outboard-decked']).toBe('not-met');
    expect(heelTest(10.1, 0.5)['gear-outboard-decked']).toBe('not-met');
  });

  it('asks an open boat for the heel alone, and does not guess an assigned freeboard', () => {
    expect(heelTest(6.9, 0.01, { decked: false })['gear-outboard-open']).toBe('met');
    expect(heelTest(9, 0.3, { assignedFreeboardM: null })['gear-outboard-decked']).toBe(
      'not-judged',
    );
    expect(heelTest(11, 0.3, { assignedFreeboardM: null })['gear-outboard-decked']).toBe('not-met');
    expect(heelTest(6, 0.3, { assignedFreeboardM: null })['gear-outboard-decked']).toBe('met');
  });

  it('is for vessels under 15 m overall', () => {
    expect(heelTest(6, 0.3, { lengthsM: { overall: 15 } })['gear-outboard-decked']).toBe(
      'not-judged',
    );
  });
});

describe('all people to one side', () => {
  const work = { services: ['workboat'] as const };
  it('has the same limits', () => {
    const of = (heelDeg: number) =>
      verdictsOf(UK_PEOPLE, madeEvidence({ ...read('people', heelDeg, 0.2), vessel: work }))[
        'people-decked'
      ];
    expect([of(6.9), of(7.1)]).toEqual(['met', 'not-met']);
  });

  it('gives GM = 57.3 moment over degrees and displacement: 3 t m on 60 t', () => {
    const of = (heelDeg: number) =>
      verdictsOf(UK_PEOPLE_GM, madeEvidence({ ...read('people', heelDeg, 0.2), vessel: work }))[
        'people-gm'
      ];
    // 0.5 m at 0.1 rad = 5.7296 degrees.
    expect([of(5.72), of(5.74)]).toEqual(['met', 'not-met']);
  });
});
