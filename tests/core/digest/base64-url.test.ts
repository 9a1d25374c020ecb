import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { base64UrlOf, bytesOfBase64Url } from '#core/digest/base64-url.ts';

describe('base64url', () => {
  // RFC 4648, section 10, without the padding that section 5 lets be left out.
  it.each([
    ['', ''],
    ['f', 'Zg'],
    ['fo', 'Zm8'],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg'],
    ['fooba', 'Zm9vYmE'],
    ['foobar', 'Zm9vYmFy'],
  ])('%j is %j', (plain, text) => {
    expect(base64UrlOf(Buffer.from(plain))).toBe(text);
    expect(bytesOfBase64Url(text)).toEqual(new Uint8Array(Buffer.from(plain)));
  });

  it('is what Node writes, and comes back, for any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 80 }), (bytes) => {
        const text = base64UrlOf(bytes);
        expect(text).toBe(Buffer.from(bytes).toString('base64url'));
        expect(bytesOfBase64Url(text)).toEqual(bytes);
      }),
    );
  });

  it('takes nothing but exactly what it writes: no other letters, padding, or bits beside the bytes', () => {
    for (const text of ['Zg==', 'Z', 'Zh', 'Zm9+', 'Zm 9v', 'é'])
      expect(bytesOfBase64Url(text)).toBeNull();
  });
});
