import type { Clause, RuleSet } from '../rule-set.ts';
import { rightingClauses } from './righting-clauses.ts';
import { windAndRollClauses } from './wind-and-roll-clauses.ts';
import { SPAIN_WIND } from './wind-and-roll-tables.ts';

const SOURCE = 'Real Decreto 543/2007, annex II (Spain)';
const EDITION = 'as published in the Boletin Oficial del Estado, 2007';

/** Little dynamic stability calls for wind, roll and water on deck: 2(g). */
const LITTLE: Clause['when'] = {
  quantity: { kind: 'area', fromDeg: 0, to: 30, stops: 'open-at-sea' },
  under: 0.065,
};

const righting = rightingClauses({
  provenance: 'seen',
  clause: '2(b)',
  stops: 'open-at-sea',
  areaTo30: { value: 0.055, unit: 'm.rad' },
  areaTo40: { value: 0.09, unit: 'm.rad' },
  area30To40: { value: 0.03, unit: 'm.rad' },
  leastGmM: 0.35,
  factor: { times: 1.2, services: ['beam-trawling'] },
});

/** 2(d) stands for these where there are two hulls or more. */
const ONE_HULL = new Set(['area-0-30', 'heel-of-maximum']);

export const SPAIN_FISHING: RuleSet = {
  heelwrightRules: 1,
  id: 'es-rd-543-2007-fishing',
  title: 'Fishing vessels under 24 m, Spain',
  source: SOURCE,
  edition: EDITION,
  notes: [
    '2(a) prints "length <= 12 m" for these criteria; section 17 covers vessels under 12 m, so 12 m and over must be meant.',
    'Beam trawlers and vessels with outriggers: every value of 2(b) times 1.2 (2(b)4), the angle included as the text reads.',
    'That levers beyond flooding do not count, and that 2(d) replaces the area to 30 degrees and the angle for multihulls, is our reading.',
  ],
  appliesTo: {
    length: { measure: 'regulation', fromM: 12, underM: 24 },
    services: ['fishing', 'beam-trawling'],
  },
  freeSurface: 'rd-543-2007',
  clauses: [
    ...righting.map((one): Clause => (ONE_HULL.has(one.id) ? { ...one, hulls: 'mono' } : one)),
    {
      id: 'area-to-maximum',
      clause: '2(d)',
      words: 'Multihulls: area up to the heel of the greatest righting lever.',
      formula: 'integral of GZ from 0 to its maximum >= 0.055 + 0.001 (30 - heel of the maximum)',
      provenance: 'seen',
      hulls: 'multi',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'area', fromDeg: 0, to: 'maximum', stops: 'open-at-sea' },
              bound: 'at-least',
              limit: { kind: 'area-by-maximum', baseMRad: 0.055, perDegMRad: 0.001, underDeg: 30 },
            },
          ],
        },
      ],
    },
    {
      id: 'hatches',
      clause: '2(c)',
      words:
        'Hatches that are open while fishing flood at 20 degrees or more; else show the hold half flooded with 75 % of the consumables.',
      formula: 'heel of downflooding with those hatches open',
      provenance: 'seen',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'downflooding', opened: 'open-at-worst' },
              bound: 'at-least',
              limit: { kind: 'fixed', value: 20, unit: 'deg' },
            },
          ],
        },
      ],
    },
    {
      id: 'gear-pull',
      clause: '2(e)',
      words:
        'The pull of the gear does not bring the deck edge under, with 35 % consumables and all the catch.',
      formula: 'heel under the pull < heel of the deck edge',
      provenance: 'seen',
      conditions: ['leaving-grounds', 'working'],
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'heel-under-moment', moment: 'gear-pull' },
              bound: 'below',
              limit: { kind: 'deck-edge-share', share: 1 },
            },
          ],
        },
      ],
    },
    ...windAndRollClauses({
      provenance: 'seen',
      clause: '2(g) and 8',
      wind: SPAIN_WIND,
      when: LITTLE,
    }),
    {
      id: 'water-on-deck',
      clause: '2(g)',
      words: 'Water trapped on deck: the coefficient Cwod is 1 or more.',
      formula: 'Cwod >= 1',
      provenance: 'seen',
      when: LITTLE,
      anyOf: [
        {
          allOf: [
            {
              quantity: {
                kind: 'not-computed',
                why: 'the coefficient of water on deck is not computed here; show it by the decree',
              },
              bound: 'at-least',
              limit: { kind: 'fixed', value: 1, unit: 'times' },
            },
          ],
        },
      ],
    },
  ],
};

/** Section 8 by itself, whatever the dynamic stability. */
export const SPAIN_WIND_AND_ROLL: RuleSet = {
  heelwrightRules: 1,
  id: 'es-rd-543-2007-wind',
  title: 'Wind and roll, fishing vessels under 24 m, Spain',
  source: SOURCE,
  edition: EDITION,
  notes: [
    'The row of s for roll periods up to 6 s is blank in the published law: 0.100 is from memory. A result that uses it, as every period under 7 s does, is not verified.',
    'Under 1 m of height the pressure of 1 m is taken, our reading.',
  ],
  appliesTo: {
    length: { measure: 'regulation', underM: 24 },
    services: ['fishing', 'beam-trawling'],
  },
  freeSurface: 'rd-543-2007',
  clauses: windAndRollClauses({ provenance: 'seen', clause: '8', wind: SPAIN_WIND }),
};
