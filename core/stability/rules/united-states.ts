import type { Clause, RuleSet } from '../rule-set.ts';
import { rightingClauses } from './righting-clauses.ts';

/** Both parts print 3.15, 5.15 and 1.72 metre-degrees (0.090 m rad is 5.157). */
const AREAS = {
  provenance: 'seen',
  stops: 'open-at-sea',
  areaTo30: { value: 3.15, unit: 'm.deg' },
  areaTo40: { value: 5.15, unit: 'm.deg' },
  area30To40: { value: 1.72, unit: 'm.deg' },
} as const;

export const US_FISHING: RuleSet = {
  heelwrightRules: 1,
  id: 'us-46-cfr-28-570',
  title: 'Fishing vessels, United States',
  source: '46 CFR 28.570',
  edition: 'Code of Federal Regulations, title 46 part 28, as read',
  notes: [
    'Scope of 24 m (79 ft) and over is from memory: under it this set refuses to judge.',
    'Instead of a positive lever to 60 degrees 28.570(b) allows 50 degrees with further conditions on flooding through hatches, not judged here.',
  ],
  appliesTo: {
    length: { measure: 'regulation', fromM: 24 },
    services: ['fishing', 'beam-trawling'],
  },
  freeSurface: 'upright',
  clauses: [
    ...rightingClauses({ ...AREAS, clause: '28.570(a)', leastGmM: 0.35 }),
    {
      id: 'range',
      clause: '28.570(a)(7)',
      words: 'A positive righting lever up to 60 degrees of heel.',
      formula: 'heel up to which GZ > 0',
      provenance: 'seen',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'range', stops: null },
              bound: 'at-least',
              limit: { kind: 'fixed', value: 60, unit: 'deg' },
            },
          ],
        },
      ],
    },
  ],
};

/** 170.173(c): a maximum at 15 degrees was seen, the area that goes with it was not. */
const EARLY_MAXIMUM: Clause['anyOf'][number] = {
  provenance: 'from-memory',
  allOf: [
    {
      quantity: { kind: 'heel-of-maximum', stops: 'open-at-sea' },
      bound: 'at-least',
      limit: { kind: 'fixed', value: 15, unit: 'deg' },
    },
    {
      quantity: { kind: 'area', fromDeg: 0, to: 'maximum', stops: 'open-at-sea' },
      bound: 'at-least',
      limit: { kind: 'area-by-maximum', baseMRad: 0.055, perDegMRad: 0.001, underDeg: 30 },
    },
  ],
};

export const US_WORKING: RuleSet = {
  heelwrightRules: 1,
  id: 'us-46-cfr-170-173',
  title: 'Working vessels, United States',
  source: '46 CFR 170.173(b) and (c)',
  edition: 'Code of Federal Regulations, title 46 part 170, as read',
  notes: [
    'The area that 170.173(c) asks for with a maximum from 15 degrees on was not seen: that way computes, from memory, and does not judge.',
    'Which vessels part 170 sends to this section is for the authority to say.',
  ],
  appliesTo: { services: ['workboat', 'towing', 'lifting', 'passenger', 'pilot', 'cargo'] },
  freeSurface: 'upright',
  clauses: rightingClauses({ ...AREAS, clause: '170.173(b)', leastGmM: 0.15 }).map(
    (one): Clause =>
      one.id === 'heel-of-maximum'
        ? { ...one, clause: '170.173(b), (c)', anyOf: [...one.anyOf, EARLY_MAXIMUM] }
        : one,
  ),
};
