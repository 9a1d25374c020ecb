import { describe, expect, it } from 'vitest';
import type { RuleSet } from '#core/stability/rule-set.ts';
import { RULE_SETS } from '#core/stability/rules/all-rule-sets.ts';
import { rightingClauses } from '#core/stability/rules/righting-clauses.ts';
import { notMet, verdictsOf } from '../../../support/clause-verdicts.ts';
import { leversAt, type Made, madeEvidence } from '../../../support/made-evidence.ts';

const set: RuleSet = {
  ...RULE_SETS[0]!,
  appliesTo: {},
  freeSurface: 'exact',
  clauses: rightingClauses({
    provenance: 'seen',
    clause: '2(b)',
    stops: 'open-at-sea',
    areaTo30: { value: 0.055, unit: 'm.rad' },
    areaTo40: { value: 0.09, unit: 'm.rad' },
    area30To40: { value: 0.03, unit: 'm.rad' },
    leastGmM: 0.35,
    factor: { times: 1.2, services: ['beam-trawling'] },
  }),
};

/** Curves that only one requirement stands against. */
const ONLY: Readonly<Record<string, Made>> = {
  'area-0-30': {
    levers: leversAt({
      0: 0,
      10: 0.05,
      20: 0.12,
      30: 0.24,
      40: 0.32,
      50: 0.35,
      60: 0.3,
      75: 0.1,
      90: -0.1,
    }),
  },
  'area-0-40': {
    levers: leversAt({
      0: 0,
      10: 0.08,
      20: 0.15,
      30: 0.183,
      40: 0.19,
      50: 0.21,
      60: 0.2,
      75: 0.1,
      90: -0.1,
    }),
  },
  'area-30-40': {
    levers: leversAt({
      0: 0,
      10: 0.12,
      20: 0.18,
      30: 0.172,
      40: 0.168,
      50: 0.21,
      60: 0.22,
      75: 0.1,
      90: -0.1,
    }),
  },
  'lever-30': {
    levers: leversAt({
      0: 0,
      10: 0.1,
      20: 0.17,
      30: 0.19,
      40: 0.195,
      50: 0.19,
      60: 0.15,
      75: 0.1,
      90: -0.1,
    }),
  },
  'heel-of-maximum': {
    levers: leversAt({
      0: 0,
      10: 0.2,
      20: 0.33,
      24: 0.34,
      30: 0.32,
      40: 0.25,
      50: 0.18,
      60: 0.1,
      75: 0,
      90: -0.1,
    }),
  },
  gm: { gmM: 0.349 },
};

describe('the six usual requirements', () => {
  it('are all met with ample levers, by a beam trawler too', () => {
    expect(notMet(set, madeEvidence())).toEqual([]);
    expect(new Set(Object.values(verdictsOf(set, madeEvidence())))).toEqual(new Set(['met']));
    const trawler = { vessel: { services: ['beam-trawling'] as const } };
    expect(notMet(set, madeEvidence(trawler))).toEqual([]);
  });

  it.each(Object.entries(ONLY))('%s alone is not met', (id, made) => {
    expect(notMet(set, madeEvidence(made))).toEqual([id]);
  });

  it('have each its curve', () => {
    expect(Object.keys(ONLY).sort()).toEqual(set.clauses.map((one) => one.id).sort());
  });

  it('stop at flooding: an area that counts to 35 degrees only is not enough', () => {
    const levers = leversAt({ 0: 0, 10: 0.1, 20: 0.18, 30: 0.22, 40: 0.24, 60: 0.2, 90: -0.1 });
    expect(notMet(set, madeEvidence({ levers }))).toEqual([]);
    const floods = { levers, downfloodingRad: () => (32 * Math.PI) / 180 };
    expect(notMet(set, madeEvidence(floods))).toEqual(['area-0-40', 'area-30-40']);
    const early = { levers, downfloodingRad: () => (24 * Math.PI) / 180 };
    expect(notMet(set, madeEvidence(early))).toEqual([
      'area-0-30',
      'area-0-40',
      'area-30-40',
      'lever-30',
      'heel-of-maximum',
    ]);
  });

  it('ask a fifth more of a beam trawler', () => {
    const made: Made = { gmM: 0.41 };
    expect(notMet(set, madeEvidence(made))).toEqual([]);
    expect(notMet(set, madeEvidence({ ...made, vessel: { services: ['beam-trawling'] } }))).toEqual(
      ['gm'],
    );
    expect(verdictsOf(set, madeEvidence({ vessel: { services: null } }))['gm']).toBe('not-judged');
  });

  // Biran, Ship Hydrostatics and Stability, 2003, small cargo ship: KN seen, KG 5.0 with .04 m of free surface.
  it("do not pass Biran's small cargo ship", () => {
    const heels = [0, 10, 20, 30, 45, 60, 75, 90];
    const kn = [0, 0.918, 1.833, 2.717, 3.847, 4.653, 5.007, 4.994];
    const levers = leversAt(
      Object.fromEntries(
        heels.map((deg, k) => [deg, kn[k]! - 5.04 * Math.sin((deg * Math.PI) / 180)]),
      ),
    );
    const evidence = madeEvidence({ levers, gmM: 5.16 - 5.04, downfloodingRad: () => null });
    expect(notMet(set, evidence)).toEqual(['area-0-30', 'area-0-40', 'gm']);
  });
});
