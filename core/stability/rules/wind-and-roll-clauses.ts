import type { Quantity } from '../rule-quantity.ts';
import type { Clause, Provenance } from '../rule-set.ts';
import { SPAIN_ROLL } from './wind-and-roll-tables.ts';

interface WindText {
  readonly provenance: Provenance;
  readonly clause: string;
  readonly wind: Extract<Quantity, { kind: 'wind-and-roll' }>['wind'];
  readonly when?: Clause['when'];
}

/** Steady wind, then a gust after a roll to windward: the two requirements of RD 543/2007 annex II 8. */
export function windAndRollClauses({ provenance, clause, wind, when }: WindText): Clause[] {
  const common = { clause, provenance, ...(when && { when }) };
  return [
    {
      ...common,
      id: 'wind-heel',
      words: 'Heel under a steady wind: 16 degrees or 80 % of the deck edge, the lesser.',
      formula: 'heel where GZ meets Lw1 = P A Z / (1000 g displacement)',
      anyOf: [
        {
          allOf: [
            {
              quantity: { kind: 'wind-heel', wind },
              bound: 'at-most',
              limit: {
                kind: 'least-of',
                of: [
                  { kind: 'fixed', value: 16, unit: 'deg' },
                  { kind: 'deck-edge-share', share: 0.8 },
                ],
              },
            },
          ],
        },
      ],
    },
    {
      ...common,
      id: 'wind-and-roll',
      words:
        'A gust after a roll to windward: the area that rights her is no less than the one that heels.',
      formula:
        'area b / area a, gust Lw2 = 1.5 Lw1, roll 109 k X1 X2 sqrt(r s), b to the least of flooding, 50 degrees and the second meeting',
      anyOf: [
        {
          allOf: [
            {
              quantity: {
                kind: 'wind-and-roll',
                wind,
                gustTimes: 1.5,
                roll: SPAIN_ROLL,
                toDeg: 50,
                stops: 'open-at-sea',
              },
              bound: 'at-least',
              limit: { kind: 'fixed', value: 1, unit: 'times' },
            },
          ],
        },
      ],
    },
  ];
}
