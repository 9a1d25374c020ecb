import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countOfDecimal, DECIMAL_PLACES } from '#core/part/decimal-count.ts';

describe('a printed number', () => {
  it.each([
    ['0.512', 512_000_000, 3],
    ['-1.034', -1_034_000_000, 3],
    ['+02.9', 2_900_000_000, 1],
    ['-0.6135744', -613_574_400, 7],
    ['171', 171_000_000_000, 0],
    ['.5', 500_000_000, 1],
    ['5.', 5_000_000_000, 0],
    ['-0.0', 0, 1],
    ['1.0000000000000', 1_000_000_000, 13],
  ])('%s is %d of its last place', (text, count, places) => {
    expect(countOfDecimal(text)).toEqual({ count, places });
  });

  it.each(['', '-', '.', '1e3', '1,5', ' 1', '1 ', '0x1', '--1', '1.2.3', 'NaN', '1.0000000001'])(
    'is not %j',
    (text) => {
      expect(countOfDecimal(text)).toBeNull();
    },
  );

  it('is none where it could not be kept exactly', () => {
    expect(countOfDecimal('9007199')).not.toBeNull();
    expect(countOfDecimal('9007200')).toBeNull();
    expect(countOfDecimal('9'.repeat(400))).toBeNull();
  });

  it('is kept exactly', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -180_000, max: 180_000 }),
        fc.integer({ min: 0, max: DECIMAL_PLACES }),
        (whole, places) => {
          const digits = String(Math.abs(whole)).padStart(places + 1, '0');
          const at = digits.length - places;
          const text = `${whole < 0 ? '-' : ''}${digits.slice(0, at)}.${digits.slice(at)}`;
          const count = BigInt(whole) * 10n ** BigInt(DECIMAL_PLACES - places);
          const read = countOfDecimal(text);
          expect(read === null ? null : BigInt(read.count)).toBe(count);
        },
      ),
    );
  });
});
