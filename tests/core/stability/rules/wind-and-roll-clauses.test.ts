import { describe, expect, it } from 'vitest';
import { limitAnswer } from '#core/stability/limit-value.ts';
import { tableValue } from '#core/stability/printed-table.ts';
import { windAndRollClauses } from '#core/stability/rules/wind-and-roll-clauses.ts';
import { SPAIN_ROLL, SPAIN_WIND } from '#core/stability/rules/wind-and-roll-tables.ts';
import { madeEvidence } from '../../../support/made-evidence.ts';

describe('the clauses of wind and roll', () => {
  const clauses = windAndRollClauses({ provenance: 'seen', clause: '8', wind: SPAIN_WIND });

  it('limit the steady heel to 16 degrees or 80 % of the deck edge', () => {
    const limit = clauses[0]!.anyOf[0]!.allOf[0]!.limit;
    const at = (deckEdgeDeg: number) =>
      limitAnswer(
        {
          evidence: madeEvidence({ deckEdgeRad: () => (deckEdgeDeg * Math.PI) / 180 }),
          side: 'port',
          method: 'exact',
        },
        limit,
        null,
      );
    expect(at(30)).toMatchObject({ value: 16 });
    expect(at(10)).toMatchObject({ value: expect.closeTo(8, 12) });
  });

  // RD 543/2007 annex II 8 as printed; linear between rows.
  it('stand on the printed tables', () => {
    const rows = (table: typeof SPAIN_ROLL.x1, at: number[]) =>
      at.map((one) => tableValue(table, one).value);
    expect(rows(SPAIN_WIND.pressure, [0.5, 1, 2, 3, 4, 5, 6, 9])).toEqual([
      316, 316, 386, 429, 460, 485, 504, 504,
    ]);
    expect(tableValue(SPAIN_WIND.pressure, 2.5).value).toBeCloseTo(407.5, 10);
    expect(rows(SPAIN_ROLL.x1, [2, 2.4, 2.7, 3.1, 3.5, 4])).toEqual([1, 1, 0.95, 0.88, 0.8, 0.8]);
    expect(tableValue(SPAIN_ROLL.x1, 3.45).value).toBeCloseTo(0.81, 10);
    expect(rows(SPAIN_ROLL.x2, [0.4, 0.45, 0.55, 0.7, 0.8])).toEqual([0.75, 0.75, 0.89, 1, 1]);
    expect(rows(SPAIN_ROLL.k, [0, 1, 1.5, 2, 2.5, 3, 3.5, 4, 9])).toEqual([
      1, 0.98, 0.95, 0.88, 0.79, 0.74, 0.72, 0.7, 0.7,
    ]);
    expect(rows(SPAIN_ROLL.s, [7, 8, 12, 14, 16, 18, 20, 30])).toEqual([
      0.098, 0.093, 0.065, 0.053, 0.044, 0.038, 0.035, 0.035,
    ]);
  });
});
