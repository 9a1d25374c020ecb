import { describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { chainAfter, EMPTY_CHAIN } from '#core/record/chain.ts';
import { bytesOf } from '#tests/support/record-lines.ts';

describe('the chain', () => {
  it('begins with 64 zeros and goes on with the digest of each line and its newline', () => {
    expect(EMPTY_CHAIN).toEqual({ next: 0, head: '0'.repeat(64) });
    const after = chainAfter(EMPTY_CHAIN, bytesOf('abc'), sha256Hex);
    // FIPS 180-4, example of three bytes.
    expect(after).toEqual({
      next: 1,
      head: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    });
  });
});
