import type { HeelingMomentKind, Service } from '../evidence.ts';
import type { Clause, RuleSet, Way } from '../rule-set.ts';

/** Seven degrees with 75 mm of freeboard left (decked), or ten with the assigned freeboard left. */
function heelClauses(moment: HeelingMomentKind, clause: string, words: string): Clause[] {
  const heel = (value: number): Way['allOf'][number] => ({
    quantity: { kind: 'heel-under-moment', moment },
    bound: 'at-most',
    limit: { kind: 'fixed', value, unit: 'deg' },
  });
  const freeboard = (limit: Way['allOf'][number]['limit']): Way['allOf'][number] => ({
    quantity: { kind: 'freeboard-under-moment', moment },
    bound: 'at-least',
    limit,
  });
  const ten: Way = { allOf: [heel(10), freeboard({ kind: 'assigned-freeboard' })] };
  const common = { clause, words, provenance: 'seen' } as const;
  return [
    {
      ...common,
      id: `${moment}-decked`,
      decked: true,
      formula:
        'heel <= 7 degrees and freeboard >= 75 mm, or heel <= 10 degrees and freeboard >= the assigned one',
      anyOf: [{ allOf: [heel(7), freeboard({ kind: 'fixed', value: 75, unit: 'mm' })] }, ten],
    },
    {
      ...common,
      id: `${moment}-open`,
      decked: false,
      formula: 'heel <= 7 degrees, or heel <= 10 degrees and freeboard >= the assigned one',
      anyOf: [{ allOf: [heel(7)] }, ten],
    },
  ];
}

const COMMERCIAL: readonly Service[] = [
  'workboat',
  'towing',
  'lifting',
  'passenger',
  'pilot',
  'pleasure',
  'cargo',
];

const ASSIGNED = 'The freeboard for up to ten degrees is the one of annex 8; enter it as assigned.';

export const UK_HEEL_TEST: RuleSet = {
  heelwrightRules: 1,
  id: 'uk-heel-test',
  title: 'Heel test, fishing vessels under 15 m, United Kingdom',
  source: 'Code of practice for small fishing vessels under 15 m, annex 5a (United Kingdom)',
  edition: 'as read',
  notes: [
    'Port departure, tanks full, hold empty; typical gear lifted from the outboard derrick.',
    ASSIGNED,
    'A repeat test for growth in weight, no proof of stability.',
  ],
  appliesTo: {
    length: { measure: 'overall', underM: 15 },
    services: ['fishing', 'beam-trawling'],
  },
  freeSurface: 'upright',
  clauses: heelClauses(
    'gear-outboard',
    'annex 5a',
    'Heel and freeboard while her gear hangs outboard.',
  ).map((one): Clause => ({ ...one, conditions: ['heel-test', 'departure'] })),
};

const SMALL_CRAFT = {
  heelwrightRules: 1,
  source: 'Small commercial vessels, 11.4 (United Kingdom)',
  edition: 'as read',
  freeSurface: 'upright',
} as const;

export const UK_PEOPLE: RuleSet = {
  ...SMALL_CRAFT,
  id: 'uk-people-one-side',
  title: 'All people to one side, small commercial craft, United Kingdom',
  notes: [`75 kg a person. ${ASSIGNED}`],
  appliesTo: { services: [...COMMERCIAL] },
  clauses: heelClauses('people', '11.4', 'Heel and freeboard with everybody aboard at one side.'),
};

export const UK_PEOPLE_GM: RuleSet = {
  ...SMALL_CRAFT,
  id: 'uk-people-gm',
  title: 'GM from all people to one side, small commercial craft over 15 m, United Kingdom',
  notes: [
    '75 kg a person. 0.5 m is for an estimated displacement; the 0.35 m for a known one is not judged here.',
    'That length is measured overall is our reading.',
  ],
  appliesTo: { services: [...COMMERCIAL], length: { measure: 'overall', fromM: 15 } },
  clauses: [
    {
      id: 'people-gm',
      clause: '11.4',
      words: 'GM from the heel read with everybody at one side.',
      formula: 'GM = 57.3 moment / (heel in degrees displacement)',
      provenance: 'seen',
      conditions: ['heel-test'],
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'gm-of-heel', moment: 'people' },
              bound: 'at-least',
              limit: { kind: 'fixed', value: 0.5, unit: 'm' },
            },
          ],
        },
      ],
    },
  ],
};
