import type { RuleSet } from '../rule-set.ts';
import { rightingClauses } from './righting-clauses.ts';
import { windAndRollClauses } from './wind-and-roll-clauses.ts';

const NOT_SEEN =
  'Figures from memory: not verified, not for submission, until a named person enters source, edition and page.';

export const IMO_FISHING: RuleSet = {
  heelwrightRules: 1,
  id: 'imo-is-code-fishing',
  title: 'Fishing vessels, IMO',
  source: 'IMO 2008 Intact Stability Code, resolution MSC.267(85), part B 2.1.3',
  edition: '2008, from memory',
  notes: [
    NOT_SEEN,
    'Vessels with complete superstructures and vessels of 70 m and over: GM 0.15 m instead of 0.35 m, from memory, not in this set.',
  ],
  appliesTo: { services: ['fishing', 'beam-trawling'], decked: true },
  freeSurface: 'upright',
  clauses: rightingClauses({
    provenance: 'from-memory',
    clause: 'part B 2.1.3',
    stops: 'open-at-sea',
    areaTo30: { value: 0.055, unit: 'm.rad' },
    areaTo40: { value: 0.09, unit: 'm.rad' },
    area30To40: { value: 0.03, unit: 'm.rad' },
    leastGmM: 0.35,
  }),
};

export const IMO_WEATHER: RuleSet = {
  heelwrightRules: 1,
  id: 'imo-weather',
  title: 'Wind and roll at full pressure, IMO',
  source: 'IMO 2008 Intact Stability Code, resolution MSC.267(85), part A 2.3',
  edition: '2008, from memory',
  notes: [
    NOT_SEEN,
    'Structure and tables as in RD 543/2007 annex II 8; pressure 504 Pa at every height.',
  ],
  appliesTo: { length: { measure: 'regulation', fromM: 24 } },
  freeSurface: 'upright',
  clauses: windAndRollClauses({
    provenance: 'from-memory',
    clause: 'part A 2.3',
    wind: { pressure: { at: [0, 100], value: [504, 504] } },
  }),
};

/** Ranges were seen, coefficients not. Basis: 119 vessels of 15 to 29 m (MSC.1/Circ.1281 3.3). */
export const IMO_SIMPLIFIED: RuleSet = {
  heelwrightRules: 1,
  id: 'imo-a-207-simplified',
  title: 'Simplified least GM, decked fishing vessels under 30 m, IMO',
  source: 'IMO resolution A.207(VII); IS Code part B 2.1.5',
  edition: 'coefficients from memory',
  notes: [
    NOT_SEEN,
    'Not a replacement for the criteria: only where cross curves, KM and levers cannot be had.',
    'A margin must be added where GM comes from a rolling test, an estimated displacement or an approximation; no number is printed.',
  ],
  appliesTo: {
    length: { measure: 'waterline', underM: 30 },
    services: ['fishing', 'beam-trawling'],
    decked: true,
  },
  freeSurface: 'upright',
  clauses: [
    {
      id: 'simplified-gm',
      clause: 'A.207 1; part B 2.1.5.1',
      words: 'GM no less than a value from her dimensions, within the ranges of the formula.',
      formula:
        'GM >= 0.53 + 2 B [0.075 - 0.37 f/B + 0.82 (f/B)^2 - 0.014 B/D - 0.032 ls/L], f/B 0.02 to 0.20, ls/L under 0.60, B/D 1.75 to 2.15',
      provenance: 'from-memory',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'gm-fluid' },
              bound: 'at-least',
              limit: {
                kind: 'simplified-gm',
                constantM: 0.53,
                coefficients: [0.075, -0.37, 0.82, -0.014, -0.032],
                freeboardToBeam: { least: 0.02, most: 0.2 },
                superstructureToLengthUnder: 0.6,
                beamToDepth: { least: 1.75, most: 2.15 },
                superstructureHeightM: 1.8,
              },
            },
          ],
        },
      ],
    },
  ],
};
