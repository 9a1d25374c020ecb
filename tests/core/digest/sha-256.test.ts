import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { utf8FromText } from '#core/digest/utf-8.ts';
import { nodeSha256Hex } from '#receiver/node-digest.ts';

describe('SHA-256', () => {
  it('gives the example digests of FIPS 180-4 (NIST example values, messages of 3 and 56 bytes)', () => {
    expect(sha256Hex(utf8FromText('abc'))).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
    expect(
      sha256Hex(utf8FromText('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')),
    ).toBe('248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1');
  });

  it("equals Node's own on any bytes, and the receiver's is that", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        const expected = createHash('sha256').update(bytes).digest('hex');
        expect(sha256Hex(bytes)).toBe(expected);
        expect(nodeSha256Hex(bytes)).toBe(expected);
      }),
    );
  });
});
