import { describe, expect, it } from 'vitest';
import { fieldsOfRow, numberOfField } from '#core/sample/sample-field.ts';

describe('a field of a table', () => {
  it('is taken out of its quotes, with what parts fields inside them', () => {
    expect(fieldsOfRow(' 0.1 , -2 ', ',')).toEqual(['0.1', '-2']);
    expect(fieldsOfRow('"0,1","-2,5"', ',')).toEqual(['0,1', '-2,5']);
    expect(fieldsOfRow('"time S" ; "a;b";3;', ';')).toEqual(['time S', 'a;b', '3', '']);
    for (const bad of ['"0,1', '0"1,2', '"0"1,2']) expect(fieldsOfRow(bad, ',')).toBeNull();
  });

  it('is a number, nothing, or refused', () => {
    const taken = ['1.5', '1,5', '-.5e-2', '+3', '5.'].map(numberOfField);
    expect(taken).toEqual([1.5, 1.5, -0.005, 3, 5]);
    expect(numberOfField('')).toBeNull();
    const refused = ['NaN', '1 2', '0x10', '1,234.5', '1,2,3', '1e999', 'deg', '-', '.', '١'];
    for (const text of refused) expect(numberOfField(text)).toBeUndefined();
  });
});
