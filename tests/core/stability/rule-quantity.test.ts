import { describe, expect, it } from 'vitest';
import { DIMENSION_OF, printedTable, quantity } from '#core/stability/rule-quantity.ts';

describe('the quantities a clause may name', () => {
  it('are a closed list with a dimension each', () => {
    const kinds = quantity.options.map((option) => option.shape.kind.value).sort();
    expect(kinds).toEqual(Object.keys(DIMENSION_OF).sort());
    expect(quantity.safeParse({ kind: 'formula', text: 'process.exit()' }).success).toBe(false);
    expect(quantity.safeParse({ kind: 'gm-fluid', text: 'x' }).success).toBe(false);
    expect(quantity.safeParse({ kind: 'area', fromDeg: 0, to: 91, stops: null }).success).toBe(
      false,
    );
    expect(quantity.safeParse({ kind: 'area', fromDeg: 0, to: 40 }).success).toBe(false);
  });

  it('take tables only that go up and have a value for every place', () => {
    expect(printedTable.safeParse({ at: [1, 2], value: [3, 4] }).success).toBe(true);
    expect(printedTable.safeParse({ at: [1, 1], value: [3, 4] }).success).toBe(false);
    expect(printedTable.safeParse({ at: [1, 2, 3], value: [3, 4] }).success).toBe(false);
    expect(
      printedTable.safeParse({
        at: Array(41)
          .fill(0)
          .map((_, k) => k),
        value: Array(41).fill(1),
      }).success,
    ).toBe(false);
  });
});
