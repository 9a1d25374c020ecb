import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textFromUtf8, utf8FromText } from '#core/digest/utf-8.ts';

describe('UTF-8', () => {
  it('comes back as the same text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(textFromUtf8(utf8FromText(text))).toBe(text);
      }),
    );
  });

  it('keeps a byte order mark, for a digest must see every byte', () => {
    expect(textFromUtf8(Uint8Array.of(0xef, 0xbb, 0xbf, 0x41))).toBe('\ufeffA');
  });

  it('is refused when malformed: a lone continuation, an overlong slash, half a surrogate', () => {
    expect(textFromUtf8(Uint8Array.of(0x80))).toBeNull();
    expect(textFromUtf8(Uint8Array.of(0xc0, 0xaf))).toBeNull();
    expect(textFromUtf8(Uint8Array.of(0xed, 0xa0, 0x80))).toBeNull();
  });
});
