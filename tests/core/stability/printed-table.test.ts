import { describe, expect, it } from 'vitest';
import { tableValue } from '#core/stability/printed-table.ts';

const table = { at: [6, 7, 8, 12], value: [0.1, 0.098, 0.093, 0.065], fromMemoryUpTo: 6 };

describe('a printed table', () => {
  it('is linear between rows, and holds its end rows beyond them', () => {
    expect(tableValue(table, 7.5).value).toBeCloseTo(0.0955, 12);
    expect(tableValue(table, 8).value).toBe(0.093);
    expect(tableValue(table, 3).value).toBe(0.1);
    expect(tableValue(table, 40).value).toBe(0.065);
    expect(tableValue(table, Number.POSITIVE_INFINITY).value).toBe(0.065);
  });

  it('says where a row from memory went into it', () => {
    expect([3, 6, 6.99, 7, 7.01, 20].map((at) => tableValue(table, at).fromMemory)).toEqual([
      true,
      true,
      true,
      false,
      false,
      false,
    ]);
  });
});
