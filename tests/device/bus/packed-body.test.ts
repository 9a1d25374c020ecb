import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { checkOf, packBody, unpackBody } from '#device/bus/packed-body.ts';

describe('bodies of scan messages', () => {
  it('have the check that the firmware names for the nine characters', () => {
    // hardware/firmware/README.md, "Bytes in messages".
    expect(checkOf(Buffer.from('123456789'))).toBe(0x29b1);
  });

  it('come back as they were, in bytes of seven bits', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 255 }), { maxLength: 120 }), (body) => {
        const packed = packBody(body);
        expect(packed).toHaveLength(Math.ceil(((body.length + 2) * 8) / 7));
        expect(packed.every((byte) => byte < 0x80)).toBe(true);
        expect([...unpackBody(packed, 'test')]).toEqual(body);
      }),
    );
  });

  it('are refused with any one bit turned, any byte missing or one too many', () => {
    const packed = packBody([1, 2, 3, 250, 0, 255]);
    const refused = (bytes: number[]) => {
      expect(() => unpackBody(bytes, 'test')).toThrow(Fault);
    };
    packed.forEach((byte, at) => {
      for (let bit = 0; bit < 7; bit += 1) refused(packed.with(at, byte ^ (1 << bit)));
      refused(packed.toSpliced(at, 1));
    });
    refused([...packed, 0x11]);
    refused([]);
  });
});
