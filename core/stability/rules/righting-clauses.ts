import type { OpeningState, Service } from '../evidence.ts';
import type { Clause, Provenance } from '../rule-set.ts';

/** What the sets with the usual six requirements on the righting lever differ in. */
interface RightingText {
  readonly provenance: Provenance;
  /** Number of the clause as printed. */
  readonly clause: string;
  /** Openings up to whose flooding levers count. */
  readonly stops: OpeningState;
  readonly areaTo30: Limit;
  readonly areaTo40: Limit;
  readonly area30To40: Limit;
  readonly leastGmM: number;
  readonly factor?: { times: number; services: Service[] };
}
type Limit = { value: number; unit: 'm.rad' | 'm.deg' };

/**
 * The six requirements that Spain (RD 543/2007 annex II 2(b)), the United States (46 CFR 28.570(a),
 * 170.173(b)) and IMO (IS Code part B 2.1.3, from memory) print alike. That levers beyond flooding do
 * not count is our reading, the severe one.
 */
export function rightingClauses(text: RightingText): Clause[] {
  const { provenance, clause, stops } = text;
  const common = { clause, provenance, ...(text.factor && { factor: text.factor }) };
  const area = (fromDeg: number, to: number, limit: Limit): Clause['anyOf'] => [
    {
      allOf: [
        {
          quantity: { kind: 'area', fromDeg, to, stops },
          bound: 'at-least',
          limit: { kind: 'fixed', ...limit },
        },
      ],
    },
  ];
  return [
    {
      ...common,
      id: 'area-0-30',
      words: 'Area under the righting lever up to 30 degrees of heel.',
      formula: 'integral of GZ from 0 to 30 degrees',
      anyOf: area(0, 30, text.areaTo30),
    },
    {
      ...common,
      id: 'area-0-40',
      words:
        'Area under the righting lever up to 40 degrees, or to flooding where that comes first.',
      formula: 'integral of GZ from 0 to the lesser of 40 degrees and downflooding',
      anyOf: area(0, 40, text.areaTo40),
    },
    {
      ...common,
      id: 'area-30-40',
      words: 'Area between 30 and 40 degrees, or to flooding where that comes first.',
      formula: 'integral of GZ from 30 degrees to the lesser of 40 degrees and downflooding',
      anyOf: area(30, 40, text.area30To40),
    },
    {
      ...common,
      id: 'lever-30',
      words: 'A righting lever of 0.20 m at a heel of 30 degrees or more.',
      formula: 'greatest GZ at 30 degrees or more',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'lever', fromDeg: 30, toDeg: 90, stops },
              bound: 'at-least',
              limit: { kind: 'fixed', value: 0.2, unit: 'm' },
            },
          ],
        },
      ],
    },
    {
      ...common,
      id: 'heel-of-maximum',
      words: 'The greatest righting lever at 25 degrees of heel or more, preferably over 30.',
      formula: 'heel of the greatest GZ',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'heel-of-maximum', stops },
              bound: 'at-least',
              limit: { kind: 'fixed', value: 25, unit: 'deg' },
            },
          ],
        },
      ],
    },
    {
      ...common,
      id: 'gm',
      words: 'Metacentric height upright, liquids counted.',
      formula: 'GM fluid',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'gm-fluid' },
              bound: 'at-least',
              limit: { kind: 'fixed', value: text.leastGmM, unit: 'm' },
            },
          ],
        },
      ],
    },
  ];
}
