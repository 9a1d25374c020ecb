import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BITS_A_WORD, wordsOfBytes, wordsOfText } from '#core/digest/words.ts';
import { Fault } from '#core/fault/fault.ts';

describe('bytes as words', () => {
  // Test vectors of Bitcoin Improvement Proposal 39 (its test file, from memory); the twelfth word
  // of each holds a check sum and is not ours.
  it.each([
    [
      '00',
      'abandon abandon abandon abandon abandon abandon abandon abandon abandon abandon abandon',
    ],
    ['7f', 'legal winner thank year wave sausage worth useful legal winner thank'],
    ['80', 'letter advice cage absurd amount doctor acoustic avoid letter advice cage'],
    ['ff', 'zoo zoo zoo zoo zoo zoo zoo zoo zoo zoo zoo'],
  ])('are those of the standard: %s', (byte, words) => {
    const bytes = new Uint8Array(16).fill(Number.parseInt(byte, 16));
    expect(wordsOfBytes(bytes, 11).join(' ')).toBe(words);
  });

  it('hold every bit: two byte strings that differ within the words give other words', () => {
    const twoBytes = fc.uint8Array({ minLength: 11, maxLength: 11 });
    fc.assert(
      fc.property(twoBytes, fc.nat(8 * BITS_A_WORD - 1), (bytes, bit) => {
        const other = bytes.map((byte, k) => (k === bit >> 3 ? byte ^ (128 >> (bit & 7)) : byte));
        expect(wordsOfBytes(other, 8)).not.toEqual(wordsOfBytes(bytes, 8));
      }),
    );
  });

  it('are refused where there are too few bits', () => {
    expect(() => wordsOfBytes(new Uint8Array(5), 4)).toThrowError(/^input-too-few/);
  });
});

describe('words of a text', () => {
  it('are read whatever stands between them, in any letters, whole or by four of them', () => {
    expect(wordsOfText(' Legal, WINNER - than\nyearly?'.replace('yearly', 'year'))).toEqual([
      'legal',
      'winner',
      'thank',
      'year',
    ]);
    expect(wordsOfText('saus worth zoo')).toEqual(['sausage', 'worth', 'zoo']);
  });

  it.each(['winners', 'wint er', 'zo', 'xylophone', 'a'.repeat(500)])('refuse %s', (text) => {
    let code = '';
    try {
      wordsOfText(text);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      code = error.code;
    }
    expect(code).toBe('words-not-known');
  });
});
