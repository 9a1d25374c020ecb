import type { HeelingMomentKind } from '../evidence.ts';
import type { Clause, RuleSet } from '../rule-set.ts';

const KINDS = [
  { moment: 'lifting', words: 'a load on the hook' },
  { moment: 'towing', words: 'the pull of the tow' },
  { moment: 'gear-pull', words: 'the pull of the gear' },
] as const satisfies readonly { moment: HeelingMomentKind; words: string }[];

/** Every number here is ours; an authority's own goes into a set of its own. */
function clausesFor({ moment, words }: (typeof KINDS)[number]): Clause[] {
  const common = { clause: 'our setting', provenance: 'our-setting' } as const;
  return [
    {
      ...common,
      id: `${moment}-heel`,
      conditions: ['working'],
      words: `Heel under ${words}: 10 degrees or half way to the deck edge, the lesser.`,
      formula: 'heel where GZ meets the heeling lever',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'heel-under-moment', moment },
              bound: 'at-most',
              limit: {
                kind: 'least-of',
                of: [
                  { kind: 'fixed', value: 10, unit: 'deg' },
                  { kind: 'deck-edge-share', share: 0.5 },
                ],
              },
            },
          ],
        },
      ],
    },
    {
      ...common,
      id: `${moment}-sudden`,
      conditions: ['working'],
      words: `${words[0]!.toUpperCase()}${words.slice(1)} coming at once: area left beyond the heel of rest over the area short of it.`,
      formula: 'area between GZ and heeling lever to flooding or 40 degrees / area short of rest',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'sudden-moment', moment, toDeg: 40, stops: 'open-at-worst' },
              bound: 'at-least',
              limit: { kind: 'fixed', value: 1.4, unit: 'times' },
            },
          ],
        },
      ],
    },
  ];
}

export const HEELING_MOMENT_RULES: readonly RuleSet[] = KINDS.map((kind) => ({
  heelwrightRules: 1,
  id: `own-${kind.moment}`,
  title: `Heel under ${kind.words}, our setting`,
  source: 'our setting, no text behind it',
  edition: 'our setting',
  notes: ['Numbers are ours. Enter the set of your authority where there is one.'],
  appliesTo: {},
  freeSurface: 'exact',
  clauses: clausesFor(kind),
}));
